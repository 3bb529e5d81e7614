"""The shape of a job document (job/1) as data: every key that the contract knows, and what may stand there.

Nothing here checks anything: `calc.walk` reads documents by it, `calc.places` the places of operations.
Keys may be added, never renamed or removed. Those that we have added are marked 'ours'.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from calc import vocabulary

FORMAT = "job/1"
MAX_BYTES = 64_000_000
MAX_DEPTH = 64


@dataclass(frozen=True)
class Number:
    """A finite number."""


@dataclass(frozen=True)
class Text:
    """Text."""


@dataclass(frozen=True)
class Amount:
    """An exact decimal as text, `-12.50`: at most 9 digits before the point and 6 behind it."""


@dataclass(frozen=True)
class Flag:
    """true or false."""


@dataclass(frozen=True)
class Word:
    """One word of those that the contract lists."""

    words: tuple[str, ...]


@dataclass(frozen=True)
class GaugeId:
    """The id of a gauge registered in the job."""


@dataclass(frozen=True)
class Limit:
    """`{"min": x, "max": y}`, either end optional. A bare number, where allowed, is the upper end."""

    number_is_max: bool = False


@dataclass(frozen=True)
class Span:
    """`[lowest, highest]` of a gauge's scale."""


@dataclass(frozen=True)
class Numbers:
    """A plain list of numbers; null keeps its position."""


@dataclass(frozen=True)
class Series(Numbers):
    """One logged channel: numbers, null for a gap. Times never go back."""

    rises: bool = False


@dataclass(frozen=True)
class Texts:
    """A plain list of texts."""


@dataclass(frozen=True)
class WordList:
    """A plain list of words, each one of those that the contract lists."""

    words: tuple[str, ...]


@dataclass(frozen=True)
class FreeMap:
    """An object whose keys and values are free."""


@dataclass(frozen=True)
class Weights:
    """An object of numbers whose keys are words of the contract."""

    words: tuple[str, ...]
    what: str


@dataclass(frozen=True)
class Group:
    """An object whose members are known; other keys in it are kept and ignored."""

    members: Mapping[str, "Kind"]
    required: tuple[str, ...] = ()


@dataclass(frozen=True)
class ChannelGroup(Group):
    """The channels of a run: lists of equal length."""


@dataclass(frozen=True)
class Items:
    """A list of objects, each of one shape; `id` in an item, where there is one, is unique in its list."""

    item: Group = field(default_factory=lambda: Group({}))


Kind = (
    Number
    | Text
    | Amount
    | Flag
    | Word
    | GaugeId
    | Limit
    | Span
    | Numbers
    | Texts
    | WordList
    | FreeMap
    | Weights
    | Group
    | Items
)

NUMBER, TEXT, FLAG, GAUGE_ID = Number(), Text(), Flag(), GaugeId()
AMOUNT = Amount()
LIMIT, LIMIT_OR_MAX = Limit(), Limit(number_is_max=True)


def _numbers(*keys: str) -> dict[str, Kind]:
    return dict.fromkeys(keys, NUMBER)


def _texts(*keys: str) -> dict[str, Kind]:
    return dict.fromkeys(keys, TEXT)


def _flags(*keys: str) -> dict[str, Kind]:
    return dict.fromkeys(keys, FLAG)


def _limits(*keys: str) -> dict[str, Kind]:
    return dict.fromkeys(keys, LIMIT)


VEHICLE = Group(
    {
        "modified": Texts(),
        **_texts("registration", "vin", "make", "model", "engine", "fuel", "tyre"),
        **_numbers("year", "displacement_l", "cylinders", "strokes", "odometer_km", "final_drive"),
        "gear_ratios": Numbers(),
    }
)

COMPLAINT = Group(
    {
        "text": TEXT,
        "symptoms": WordList(vocabulary.SYMPTOMS),
        "codes": Texts(),
        "freeze_frame": FreeMap(),
        "reproduced": FLAG,
        "codes_cleared": FLAG,  # ours: whether codes were cleared before they were read
    }
)

BOOST_CONTROL = Group(
    {
        "device": Word(vocabulary.DEVICES),
        "actuator": Word(vocabulary.ACTUATORS),
        "arrangement": Word(vocabulary.ARRANGEMENTS),
        "more_duty": Word(vocabulary.DUTY_EFFECTS),
    }
)

SPEC = Group(
    {
        "source": TEXT,
        "intake_air_at": Word(vocabulary.INTAKE_AIR_AT),
        **_limits(
            "actuator_start_kpa",
            "actuator_full_kpa",
            "actuator_travel_mm",
            "actuator_hold_loss_kpa_per_min",
            "solenoid_coil_ohm_20c",
            "vacuum_supply_kpa",
            "bypass_hold_kpa",
            "boost_specified_peak_kpa_abs",
            "base_boost_kpa",
            "charge_leak_hole_mm",
            "volumetric_efficiency",
            "intake_depression_kpa",
            "exhaust_back_pressure_kpa",
            "cooler_drop_kpa",
            "shaft_radial_play_mm",
            "shaft_axial_play_mm",
        ),
        # The contract names these three without their form: a limit and a bare maximum are both read.
        "actuator_hysteresis_kpa": LIMIT_OR_MAX,
        "supply_drop_v": LIMIT_OR_MAX,
        "ground_drop_v": LIMIT_OR_MAX,
        **_numbers(
            "rod_thread_pitch_mm",
            "boost_tolerance_kpa",
            "rest_pressure_tolerance_kpa",
            "rest_temperature_tolerance_c",
            "sensor_tolerance_kpa",
            "control_ratio_tolerance",
            "correction_tolerance_kpa",
        ),
        "charge_sensor_range_kpa_abs": LIMIT,  # ours: what a tenth and nine tenths of its reference mean
        "abort_boost_kpa": NUMBER,  # ours: the gauge boost at which a pull is broken off
    }
)

GAUGE = Group(
    {
        "id": TEXT,
        "kind": Word(vocabulary.GAUGE_KINDS),
        "span_kpa": Span(),
        "read_to": Word(vocabulary.READ_TO),
        "calibrated_on": TEXT,
        **_numbers("class_pct", "division_kpa", "zero_kpa", "hose_m", "hose_bore_mm", "used_at_c"),
        **_numbers("accuracy_pct_reading", "accuracy_counts", "resolution_kpa"),
    }
)

STEP = Group({"id": TEXT, "state": Word(vocabulary.STEP_STATES), "note": TEXT, "photos": Texts(), "at": TEXT})
PHOTO = Group(_texts("sha256", "step", "caption", "taken_at"))

_AT_LOAD: dict[str, Kind] = {"gauge": GAUGE_ID, "engine_rpm": NUMBER, "load": Word(vocabulary.LOADS)}

ROAD_READING = Group(
    {
        "gauge": GAUGE_ID,
        "at": Word(vocabulary.GAUGE_PLACES),
        "peak": FLAG,
        **_numbers("t_s", "engine_rpm", "p_kpa", "pull"),
    }
)

ROAD_RUN = Group(
    {
        "id": TEXT,
        "phase": Word(vocabulary.PHASES),
        "gear": NUMBER,
        "control": Word(vocabulary.CONTROLS),
        "channels": ChannelGroup({name: Series(rises=name == "t_s") for name in vocabulary.CHANNELS}),
        "readings": Items(ROAD_READING),
        "noted": Items(Group(_numbers(*vocabulary.CHANNELS, "pull"))),
        "read_by": TEXT,  # ours: who reads the gauges; asked once a run
        # ours: how the run was made; a run made wrongly is not judged
        **_flags("engine_warm", "gear_held", "in_reduced_power", "regenerating"),
        "log": FreeMap(),  # ours: `sha256` of its file and the `columns` accepted; channels are read from it
    }
)

TESTS = Group(
    {
        "smoke": Group(
            {"leak_seen": FLAG, "places": Items(Group({"where": TEXT, "size": Word(vocabulary.LEAK_SIZES)}))}
        ),
        "charge_decay": Group(
            {
                "gauge": GAUGE_ID,
                **_numbers("volume_l", "volume_u_l", "air_c"),
                "air_end_c": NUMBER,  # ours: the air's temperature at the last reading
                "volume_by": Group(  # ours: where no volume is known, what a pump or a tank gave the circuit
                    _numbers(
                        "strokes", "stroke_ml", "tank_l", "tank_from_kpa", "tank_to_kpa", "from_kpa", "to_kpa"
                    )
                ),
                "readings": Items(Group(_numbers("t_s", "p_kpa"))),
            }
        ),
        "actuator": Group(
            {
                "gauge": GAUGE_ID,
                "sweep": Items(
                    Group({**_numbers("p_kpa", "travel_mm"), "direction": Word(vocabulary.DIRECTIONS)})
                ),
                **_numbers("first_movement_kpa", "full_travel_kpa"),
                "hold": Group(_numbers("p_kpa", "t_s", "p_end_kpa", "volume_ml")),
                **_flags("linkage_free", "returns_to_stop"),
            }
        ),
        "wastegate_inspection": Group(_flags("seats", "damage")),
        "solenoid": Group(
            {
                **_numbers("coil_ohm", "coil_c", "supply_v", "supply_drop_v", "ground_drop_v"),
                "gauge": GAUGE_ID,
                "sweep": Items(Group(_numbers("duty_pct", "supply_kpa", "control_kpa"))),
                "hoses_sound": FLAG,
                "hoses_fault": Word(vocabulary.HOSE_FAULTS),
                "driven_by": Word(vocabulary.DUTY_DRIVERS),
                "read_at": Word(vocabulary.CONTROL_READ_AT),
            }
        ),
        "sensors_at_rest": Group(
            _numbers(
                "charge_pressure_kpa_abs",
                "intake_air_c",
                "coolant_c",
                "pedal_released_pct",
                "pedal_floored_pct",
                "air_mass_gps",
                "barometric_kpa_abs",
                "reference_v",
                "signal_v",
                "ground_offset_v",
            )
        ),
        "turbo_inspection": Group(
            {
                **_numbers("radial_play_mm", "axial_play_mm"),
                **_flags("wheel_damage", "spins_free", "oil_in_outlet"),
            }
        ),
        "intake_depression": Group({**_AT_LOAD, "p_kpa": NUMBER}),
        "exhaust_back_pressure": Group({**_AT_LOAD, "p_kpa": NUMBER}),
        "cooler_drop": Group(
            {
                **_AT_LOAD,
                **_numbers("before_kpa", "after_kpa"),
                **_numbers(
                    "inlet_c", "before_c", "after_c"
                ),  # ours: before the compressor, and at the cooler
            }
        ),
        "vacuum_supply": Group({"gauge": GAUGE_ID, **_numbers("engine_rpm", "p_kpa", "hold_s", "p_end_kpa")}),
        "bypass_valve": Group({"gauge": GAUGE_ID, "hold_kpa": NUMBER, "seats": FLAG}),
        "electric_actuator": Group(
            {
                **_numbers("commanded_pct", "reported_pct", "supply_v"),
                **_flags("end_stops_learned", "rod_seen_moving"),
                "current_a": NUMBER,  # ours: what its motor draws, where it was read; judged by nothing
            }
        ),
        "gauges_compared": Group(  # ours: two gauges on one T-piece, at working pressure
            {"gauge": GAUGE_ID, "other_gauge": GAUGE_ID, **_numbers("p_kpa", "other_kpa")}
        ),
        "exhaust_leak": Group(_flags("soot_or_hiss")),
        "egr": Group(_flags("closes")),
        "throttle": Group(_flags("opens_fully")),
        "engine_health": Group(_flags("fuel_pressure_in_order", "misfire", "compression_even")),
        "road": Items(ROAD_RUN),
    }
)

ESTIMATE_LINE = Group(
    {
        "option": Word(vocabulary.ESTIMATE_OPTIONS),  # `mend` counts in both options
        "kind": Word(vocabulary.PRICE_KINDS),
        **_texts("name", "unit"),
        **dict.fromkeys(
            ("quantity", "price", "discount_pct", "tax_pct"), AMOUNT
        ),  # price: of one, without tax
    }
)

AUTHORISATION = Group(
    {
        **_texts("name", "at", "currency"),
        "option": Word(vocabulary.ESTIMATE_OPTIONS),
        "amount": AMOUNT,  # with tax
        "covers": Texts(),  # the lines as they stood when it was signed
        "signature": TEXT,  # the path of a drawing 1000 wide and 400 high: M and L with whole numbers
    }
)

ESTIMATE = Group(
    {
        **_texts("currency", "valid_until"),
        "rounding": Word(vocabulary.ROUNDINGS),
        "lines": Items(ESTIMATE_LINE),
        "authorisations": Items(AUTHORISATION),
    }
)

JOB = Group(
    {
        "format": Word((FORMAT,)),
        **_texts("id", "opened_at", "technician"),
        "customer": Group(_texts("name", "email", "phone")),
        "vehicle": VEHICLE,
        "complaint": COMPLAINT,
        "boost_control": BOOST_CONTROL,
        "spec": SPEC,
        "site": Group(
            {
                **_numbers("altitude_m", "barometric_kpa_abs", "ambient_c"),
                "humidity_pct": NUMBER,  # ours: relative humidity of the air around the car
                "speed_limit_kmh": NUMBER,  # ours: the speed that the pull must stay below
                "sea_level_kpa_abs": NUMBER,  # ours: what a weather report says, reduced to sea level
            }
        ),
        "gauges": Items(GAUGE),
        "steps": Items(STEP),
        "tests": TESTS,
        "photos": Items(PHOTO),
        "estimate": ESTIMATE,  # ours: what the repair would cost, and who said yes to it
        "after_repair": Group(  # ours: the codes once the work was done
            {"codes_cleared": FLAG, "codes_reread": Texts(), "learned_values_reset": FLAG}
        ),
        "deliveries": Items(  # ours: what is to be sent to the customer by e-mail; the server sends each once
            Group({**_texts("to", "asked_at", "unit", "language"), "form": Word(vocabulary.REPORT_FORMS)})
        ),
        "workshop": Group(
            {
                "priors": Weights(vocabulary.FAULTS, "fault"),
                "minutes": Weights(vocabulary.NEXT_TESTS, "test"),
                **_texts("name", "address"),  # ours: printed at the head of a report
            }
        ),
    },
    required=("format", "id"),
)
