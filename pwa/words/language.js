/** Which language this phone shows: the one chosen here, else the phone's own where we have it, else English. */

/** The languages, each by its own name. */
export const LANGUAGES = [["en", "English"], ["de", "Deutsch"]];

const PLACE = "teepiece-language";

/** Known before the first screen is built, so it stands outside the store, which takes a moment to open. */
export const language = known(chosen()) ?? known(navigator.language.slice(0, 2)) ?? LANGUAGES[0][0];

/** Takes another language from now on: the page starts anew in it. Where nothing can be kept it stays as it is. */
export function chooseLanguage(name) {
  try {
    localStorage.setItem(PLACE, name);
  } catch {
    return;
  }
  location.reload();
}

function chosen() {
  try {
    return localStorage.getItem(PLACE);
  } catch {
    return null;
  }
}

function known(name) {
  return LANGUAGES.find(([one]) => one === name)?.[0];
}
