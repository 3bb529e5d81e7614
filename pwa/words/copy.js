/** Texts of the page in a saved copy, in this phone's language. */
import { words as german } from "./de_copy.js";
import { words as english } from "./en_copy.js";
import { language } from "./language.js";

export const words = { en: english, de: german }[language];
