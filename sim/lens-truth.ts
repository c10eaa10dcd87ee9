// The lens on the books, for instructors and debriefs. All numbers SI, plain data, no words.

/** The books: what was there at the start plus what came in is what is there plus what went. */
export interface Balance {
  readonly start: number;
  readonly now: number;
  readonly came: number;
  readonly went: number;
  /** (start + came - now - went) / scale, dimensionless. */
  readonly error: number;
}
/** kg that move, lie, and are caught in a link's element. */
export interface DebrisInside {
  readonly moving: number;
  readonly lying: number;
  readonly caught: number;
}
/** What an element has caught, kg, and the loss of its cake at the flow that is now, Pa. */
export interface ElementInside {
  readonly link: string;
  readonly element: string | null;
  readonly load: number;
  readonly loss: number;
}
/** kg in the air, come into it and gone from it; its share of what burns at the least. */
export interface RoomAir {
  readonly alcohol_kg: number;
  readonly came_kg: number;
  readonly went_kg: number;
  readonly burning_share: number;
}
/** `there` is false where the seed left it out; s since the run began; how bad it is now, 0..1. */
export interface DefectSeen {
  readonly id: string;
  readonly kind: string;
  readonly there: boolean;
  readonly began_s: number | null;
  readonly ended_s: number | null;
  readonly level: number;
}
export interface Truth {
  /** kg, kg, and m3 at 1 atm; air in solution is gas in the books. */
  readonly liquid: Balance;
  readonly antifreeze: Balance;
  readonly gas: Balance;
  /** J from liquid at -150 C; null, and no ledgers, where heat is left out. */
  readonly heat: Balance | null;
  readonly heat_ledgers: Readonly<Record<string, number>>;
  /** kg; null, and nothing below it, where debris is left out. */
  readonly debris: Balance | null;
  readonly debris_by_link: Readonly<Record<string, DebrisInside>>;
  /** kg by named place, then `taken_out` by hands. */
  readonly debris_ledgers: Readonly<Record<string, number>>;
  readonly elements: readonly ElementInside[];
  readonly gas_by_link: Readonly<Record<string, number>>;
  /** Named places that fluid went to or came from, kg of liquid. */
  readonly ledgers: Readonly<Record<string, number>>;
  /** m3 at 1 atm of `gas.now` that is in solution; null where it is not followed. */
  readonly dissolved_m3: number | null;
  /** Antifreeze in each pipe, hose, fitting and tank, kg. */
  readonly antifreeze_by_part: Readonly<Record<string, number>>;
  /** Alcohol in a room's air; null without a room. */
  readonly room: RoomAir | null;
  readonly loop_air_m3: number;
  readonly casing_C: Readonly<Record<string, number>>;
  /** What is wrong with the plant, in the scenario's order. */
  readonly defects: readonly DefectSeen[];
  /** Power at each pump's shaft now, W. */
  readonly pumps: readonly { readonly id: string; readonly shaft_W: number }[];
  /** Null where the scenario has no power. */
  readonly power: PowerTruth | null;
}
export interface PowerTruth {
  readonly outlet_V: number;
  readonly motor_V: number;
  /** Through the breaker, in the cord, and to earth. */
  readonly supply_A: number;
  readonly cord_A: number;
  readonly leak_A: number;
  /** Thermal image of the breaker over that at which it trips. */
  readonly breaker: number;
  /** A of each pump's motor, and speed over rated speed. */
  readonly motors: readonly {
    readonly id: string;
    readonly current_A: number;
    readonly speed: number;
  }[];
}
