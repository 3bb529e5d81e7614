/**
 * What is new, for who uses it: the latest release first. The first version here is `calc.VERSION`; a test holds them
 * together. Kinds: `new`, `mended`, and for a verdict that was wrong `false_alarm` and `missed_fault`.
 */
export const CHANGES = [
  {
    version: "0.1.0",
    day: "2026-11-25",
    en: [
      ["new", "Every kind of boost control: wastegate by pressure or vacuum, variable geometry, electric actuators."],
      ["new", "Logs of any instrument are read on the phone, with no network; what each column means is shown and can be corrected."],
      ["new", "The verdict says what speaks for and against it, what looks alike, and the next test with its minutes."],
      ["new", "Estimate and signature on the phone; the report goes to the customer by e-mail."],
      ["new", "Office, sign-in and the page for new phones in German."],
      ["new", "A first job, walked through, and four invented cars to practise with, one of each kind."],
      ["new", "Before setting off: which gear keeps the pull legal, and how much free road it takes."],
      ["new", "The decay test says ahead how long to wait with this gauge and what its pressure does to a plug; a hot coil and a sensor's signal are told what they should read."],
      ["new", "Gauges from the workshop's register and limits from its library, on the phone and out of reach too."],
    ],
    de: [
      ["new", "Jede Art der Ladedruckregelung: Bypassklappe mit Druck oder Unterdruck, verstellbare Schaufeln, elektrische Steller."],
      ["new", "Aufzeichnungen jedes Messgeräts werden auf dem Telefon gelesen, ohne Netz; was jede Spalte bedeutet, steht da und lässt sich berichtigen."],
      ["new", "Das Urteil sagt, was dafür und dagegen spricht, was gleich aussieht, und die nächste Prüfung mit ihren Minuten."],
      ["new", "Kostenvoranschlag und Unterschrift auf dem Telefon; der Bericht geht per E-Mail an den Kunden."],
      ["new", "Büro, Anmeldung und die Seite für neue Telefone auf Deutsch."],
      ["new", "Ein erster Auftrag, Schritt für Schritt, und vier erfundene Fahrzeuge zum Üben, von jeder Bauart eines."],
      ["new", "Vor der Probefahrt: welcher Gang den Durchzug im Erlaubten hält und wie viel freie Straße er braucht."],
      ["new", "Die Dichtheitsprüfung sagt vorher, wie lange mit diesem Manometer zu warten ist und was ihr Druck mit einem Stopfen macht; bei heißer Spule und Sensorsignal steht da, was abzulesen sein müsste."],
      ["new", "Messgeräte aus dem Verzeichnis der Werkstatt und ihre Grenzwerte, auf dem Telefon und auch ohne Empfang."],
    ],
  },
];
