/** Texts of the page in a saved copy, in German. */
export const words = {
  language: "de",
  title: (when) => `Kopie der Arbeit dieses Telefons, ${when}`,
  what: "Alles, was dieses Telefon enthielt. Die Werkstatt liest diese Datei im Büro ein; nichts kommt doppelt an.",
  unnamed: "Fahrzeug noch ohne Namen",
  photo: (number) => `Foto ${number}`,
  open: (count) => `${count} Einträge waren noch nicht in der Werkstatt, als diese Kopie entstand.`,
  listed: "Alles war in der Liste der Werkstatt, als diese Kopie entstand.",
};
