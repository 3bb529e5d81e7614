/** Every sentence the app shows, in this phone's language. */
import { words as german } from "./de.js";
import { words as english } from "./en.js";
import { language } from "./language.js";

export const words = { en: english, de: german }[language];
