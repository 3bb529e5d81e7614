/** The invented car of the first job: figures of the demo job, as they are before the actuator was looked at. */

/** What the gauge shows in the walk-through, kPa. */
export const SHOWN = { first: 96, full: 171 };

/** The places of the job, but for its words. */
export const PLACES = {
  "/vehicle/registration": "EX 4321",
  "/vehicle/make": "Brindle",
  "/vehicle/model": "Saloon",
  "/vehicle/engine": "1.8 turbo",
  "/vehicle/fuel": "petrol",
  "/complaint/symptoms": ["boost_cut"],
  "/boost_control/device": "wastegate",
  "/boost_control/actuator": "pressure",
  "/boost_control/arrangement": "bleed",
  "/boost_control/more_duty": "raises_boost",
  "/spec/actuator_start_kpa": { min: 60, max: 80 },
  "/spec/actuator_full_kpa": { min: 140, max: 160 },
  "/spec/actuator_travel_mm": { min: 9, max: 12 },
  "/spec/rod_thread_pitch_mm": 1,
  "/site/barometric_kpa_abs": 100.1,
  "/site/ambient_c": 12,
  "/tests/smoke/leak_seen": false,
  "/tests/actuator/linkage_free": true,
  "/tests/actuator/returns_to_stop": true,
};

export const GAUGE = { kind: "analogue", span_kpa: [0, 400], class_pct: 1.6, division_kpa: 10, read_to: "half", zero_kpa: 0 };
