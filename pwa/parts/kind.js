/** What holds the boost down in this car; without an answer, a wastegate opened by pressure. */

/** {device, actuator, moreDuty} of a job document. */
export function kindOf({ boost_control: told = {} }) {
  return { device: told.device ?? "wastegate", actuator: told.actuator ?? "pressure", moreDuty: told.more_duty ?? null };
}

export const hasSolenoid = ({ actuator }) => actuator !== "electric";

export const hasWastegate = ({ device }) => device === "wastegate";

/** With the solenoid unplugged the actuator is fed by boost itself: never offered where that raises boost. */
export const hasBaseBoost = ({ actuator, moreDuty }) => actuator === "pressure" && moreDuty === "raises_boost";
