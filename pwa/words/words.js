/** Every sentence the app shows, in this phone's language. */
import { CHANGES } from "./changes.js";
import { words as german } from "./de.js";
import { words as english } from "./en.js";
import { language } from "./language.js";

export const words = { en: english, de: german }[language];

/** [{version, day, notes: [[kind, sentence]]}], the latest release first. */
export const changes = CHANGES.map(({ version, day, [language]: notes }) => ({ version, day, notes }));
