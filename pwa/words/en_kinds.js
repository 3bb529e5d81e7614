/** What a page says otherwise where the boost is held by vacuum, by a motor, or by vanes: laid over the usual words. */

const gently = "Pump gently: below the atmosphere hoses fold, and a diaphragm tears inwards.";
const fingers = "Fingers away from rod and crank.";

export const kinds = {
  look: {
    vacuum: {
      steps: { look_control_hoses: ["Vacuum hoses, check valve", "on their right ports, not soft, not split; the valve the right way round"] },
    },
    electric: {
      steps: { look_connectors: ["Connectors", "actuator motor and sensors: latched, dry, not green"] },
    },
  },
  actuator: {
    vacuum: {
      title: "Actuator by vacuum pump",
      connect: "Hand vacuum pump, T-piece with gauge, actuator. Deepen it slowly; the rod is drawn in.",
      parts: ["vacuum pump", "T-piece, gauge", "rod"],
      cautions: ["Hot parts near the rod. Hand vacuum pump only.", gently, fingers],
      fields: { held: "Hold, at the end", volume: "Space in hose and actuator" },
      hints: { hold: "close the pump, do not pump on: does it leak down?" },
    },
    variable_geometry: {
      hints: { first: "the rod just moves the vanes", full: "the rod is on its stop; the vanes' own stop screw is never turned" },
    },
  },
  actuator_sweep: {
    vacuum: {
      under: "Deeper to the end stop, then back",
      connect: "Hand vacuum pump, T-piece with gauge, a rule along the rod. Go deeper without going back, to the stop, then let air in step by step.",
      parts: ["vacuum pump", "T-piece, gauge", "rod, rule"],
      cautions: ["Hot parts near the rod. Hand vacuum pump only.", gently, fingers],
      rising: (pressure) => `Deeper, ${pressure}`,
      falling: (pressure) => `Back, ${pressure}`,
      plot: "Travel against vacuum",
      plotSays: (count) => `${count} steps read; deeper is the full line, back the dashed one`,
    },
    variable_geometry: {
      under: "Way there and way back apart: the vanes stick",
    },
  },
  solenoid: {
    vacuum: { hoses: "Vacuum hoses sound, on their right ports" },
  },
  solenoid_sweep: {
    vacuum: {
      under: "Does the vacuum follow its duty?",
      connect: "Engine idling or a vacuum pump that runs on, on the supply port; gauge at the actuator's end of the hose. Step the duty; without a pulse driver 0 and 100 % are enough.",
      parts: ["vacuum", "solenoid", "gauge"],
      cautions: ["Engine running: fans, belts, exhaust fumes. Use extraction.", "A hand pump alone cannot feed a bleeding valve.", "Fingers away from rod and crank: it moves by itself."],
      fields: { supply: "Vacuum fed in" },
    },
  },
  wastegate_inspection: {
    vacuum: {
      connect: "Borescope through the sensor's boss, or the exhaust off. Draw the rod in by vacuum pump and watch the flap.",
    },
    electric: {
      connect: "Borescope through the sensor's boss, or the exhaust off. Command the motor and watch the flap.",
      cautions: [
        "Hours cold: turbine and manifold burn long after.",
        "Car on stands, chocked, exhaust held before its bolts come out.",
        "The motor moves the crank with force and without warning: fingers out, plug off before you reach in.",
      ],
    },
  },
  road: {
    vacuum: {
      connect: "Hoses into the cabin: one from the charge circuit, one from the vacuum line at the actuator.",
      parts: ["charge circuit", "vacuum line", "cabin"],
      fields: { control: "vacuum line" },
      controlGauge: "Vacuum line: read on",
    },
    electric: {
      connect: "One hose into the cabin, from the charge circuit; what the motor is commanded stands on the reader.",
      parts: ["charge circuit", "motor's plug", "cabin"],
      cautions: [
        "Public-road law first: a gear in which the whole pull stays legal.",
        "The driver never handles the phone.",
        "Hose clear of pedals, steering and heat.",
        "Let off when the gauge passes the figure.",
        "Not during filter regeneration; not over dry grass.",
      ],
      fields: { duty_pct: "commanded" },
    },
  },
};
