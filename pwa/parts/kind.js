/** What holds the boost down in this car; without an answer, a wastegate opened by pressure. */

/** {device, actuator, arrangement, moreDuty} of a job document. */
export function kindOf({ boost_control: told = {} }) {
  const { device = "wastegate", actuator = "pressure", arrangement = "unknown", more_duty: moreDuty = null } = told;
  return { device, actuator, arrangement, moreDuty };
}

export const hasSolenoid = ({ actuator }) => actuator !== "electric";

export const hasVacuum = ({ actuator }) => actuator === "vacuum";

export const isElectric = ({ actuator }) => actuator === "electric";

export const hasWastegate = ({ device }) => device === "wastegate";

/** With the solenoid unplugged the actuator is fed by boost itself: never offered where that raises boost. */
export const hasBaseBoost = ({ actuator, moreDuty }) => actuator === "pressure" && moreDuty === "raises_boost";

/** What the actuator's gauge reads: a vacuum is a pressure below the air around it, and counts minus. */
export const drivenBy = ({ actuator }) => (actuator === "vacuum" ? "vacuum" : "pressure");
