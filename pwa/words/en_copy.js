/** Texts of the page in a saved copy. */
export const words = {
  language: "en",
  title: (when) => `Copy of this phone's work, ${when}`,
  what: "Everything that this phone held. The workshop takes this file in at the desk; nothing comes twice.",
  unnamed: "Car not named yet",
  photo: (number) => `Photo ${number}`,
  open: (count) => `${count} entries had not reached the workshop when this copy was made.`,
  listed: "All of it was in the workshop's list when this copy was made.",
};
