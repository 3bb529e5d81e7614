/** Was eine Seite anders sagt, wo Unterdruck, ein Motor oder Leitschaufeln den Ladedruck halten. */

const gently = "Sachte pumpen: Unter Außendruck knicken Schläuche, und eine Membran reißt nach innen.";
const fingers = "Finger weg von Stange und Hebel.";

export const kinds = {
  look: {
    vacuum: {
      steps: { look_control_hoses: ["Unterdruckschläuche, Rückschlagventil", "richtig gesteckt, nicht weich, nicht gerissen; das Ventil richtig herum"] },
    },
    electric: {
      steps: { look_connectors: ["Stecker", "Stellmotor und Sensoren: eingerastet, trocken, nicht grün"] },
    },
  },
  actuator: {
    vacuum: {
      title: "Unterdruckdose an der Handpumpe",
      connect: "Unterdruck-Handpumpe, T-Stück mit Manometer, Unterdruckdose. Langsam vertiefen; die Stange wird eingezogen.",
      parts: ["Unterdruckpumpe", "T-Stück, Manometer", "Stange"],
      cautions: ["Heiße Teile neben der Stange. Nur Unterdruck-Handpumpe.", gently, fingers],
      fields: { held: "Halten, am Ende", volume: "Raum in Schlauch und Dose" },
      hints: { hold: "Pumpe schließen, nicht nachpumpen: Fällt er ab?" },
    },
    variable_geometry: {
      hints: { first: "die Stange bewegt gerade die Leitschaufeln", full: "die Stange steht am Anschlag; die Anschlagschraube der Schaufeln bleibt unberührt" },
    },
  },
  actuator_sweep: {
    vacuum: {
      under: "Tiefer bis zum Anschlag, dann zurück",
      connect: "Unterdruck-Handpumpe, T-Stück mit Manometer, Maßstab an der Stange. Vertiefen, ohne zurückzugehen, bis zum Anschlag, dann stufenweise belüften.",
      parts: ["Unterdruckpumpe", "T-Stück, Manometer", "Stange, Maßstab"],
      cautions: ["Heiße Teile neben der Stange. Nur Unterdruck-Handpumpe.", gently, fingers],
      rising: (pressure) => `Tiefer, ${pressure}`,
      falling: (pressure) => `Zurück, ${pressure}`,
      plot: "Hub über Unterdruck",
      plotSays: (count) => `${count} Schritte abgelesen; tiefer ist die volle Linie, zurück die gestrichelte`,
    },
    variable_geometry: {
      under: "Hin- und Rückweg auseinander: Die Schaufeln klemmen",
    },
  },
  solenoid: {
    vacuum: { hoses: "Unterdruckschläuche heil und richtig gesteckt" },
  },
  solenoid_sweep: {
    vacuum: {
      under: "Folgt der Unterdruck dem Tastverhältnis?",
      connect: "Motor im Leerlauf oder eine laufende Unterdruckpumpe am Versorgungsanschluss; Manometer am Schlauchende der Dose. Tastverhältnis stufenweise stellen; ohne Taktgeber genügen 0 und 100 %.",
      parts: ["Unterdruck", "Taktventil", "Manometer"],
      cautions: ["Laufender Motor: Lüfter, Riemen, Abgas. Absaugung benutzen.", "Eine Handpumpe allein kann ein Abblasventil nicht versorgen.", "Finger weg von Stange und Hebel: Es bewegt sich von selbst."],
      fields: { supply: "Zugeführter Unterdruck" },
    },
  },
  wastegate_inspection: {
    vacuum: {
      connect: "Endoskop durch das Sondengewinde, oder Abgasanlage ab. Die Stange mit der Unterdruckpumpe einziehen und die Klappe beobachten.",
    },
    electric: {
      connect: "Endoskop durch das Sondengewinde, oder Abgasanlage ab. Den Motor ansteuern und die Klappe beobachten.",
      cautions: [
        "Stundenlang abgekühlt: Turbine und Krümmer verbrennen noch lange danach.",
        "Fahrzeug auf Böcken, gegen Rollen gesichert, Abgasanlage gehalten, bevor ihre Schrauben herauskommen.",
        "Der Motor bewegt den Hebel mit Kraft und ohne Warnung: Finger weg, Stecker ab, bevor jemand hineingreift.",
      ],
    },
  },
  road: {
    vacuum: {
      connect: "Schläuche in den Innenraum: einer von der Ladeluftstrecke, einer von der Unterdruckleitung an der Dose.",
      parts: ["Ladeluft", "Unterdruck", "Innenraum"],
      fields: { control: "Unterdruckleitung" },
      controlGauge: "Unterdruckleitung: abgelesen an",
    },
    electric: {
      connect: "Ein Schlauch in den Innenraum, von der Ladeluftstrecke; was dem Motor befohlen wird, zeigt das Diagnosegerät.",
      parts: ["Ladeluft", "Motorstecker", "Innenraum"],
      cautions: [
        "Das Straßenverkehrsrecht geht vor: ein Gang, in dem der ganze Durchzug erlaubt bleibt.",
        "Der Fahrer bedient nie das Telefon.",
        "Schlauch weg von Pedalen, Lenkung und Hitze.",
        "Gas weg, sobald das Manometer den Wert überschreitet.",
        "Nicht während der Filterregeneration; nicht über trockenem Gras.",
      ],
      fields: { duty_pct: "befohlen" },
    },
  },
};
