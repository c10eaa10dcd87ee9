// What a player gets, and all that it gets: what a trainee knows of the job before it begins
// (drawing, list of controls, sheet, what is asked for), and the panel and scene of the moment.
// Nothing in sim/player/ may reach a world, a state, the x-ray or the books; a wall sees to it.
import type { Panel, Scene } from '../lens.ts';

export interface SeenNode {
  readonly id: string;
  readonly kind: 'junction' | 'tank' | 'reservoir' | 'open';
  /** Of a tank its floor. */
  readonly elevation_m: number;
  /** Of an open end: where it goes. */
  readonly goes_to: string | null;
  /** Of a tank, m and m2. */
  readonly height: number;
  readonly area: number;
  /** Of a tank: height of its ports above the floor, m. */
  readonly ports: Readonly<Record<string, number>>;
}

export interface SeenLink {
  readonly id: string;
  readonly kind: string;
  /** Nodes: from, to, and of a three-way valve its branch; of a tank's port the tank. */
  readonly ends: readonly string[];
  /** The port of a tank at each end, or null. */
  readonly ports: readonly (string | null)[];
  readonly bore_m: number;
  readonly length_m: number;
  readonly clear: boolean;
  /** Of a hand pump, m3. */
  readonly stroke: number;
}

export interface SeenInstrument {
  readonly id: string;
  readonly kind: string;
  /** The part it stands at, or parts. */
  readonly at: readonly string[];
}

export interface SeenDevice {
  readonly id: string;
  readonly kind: string;
  /** Part it belongs to, or parts that it serves. */
  readonly of: string | null;
  readonly places: readonly string[];
  readonly needs: readonly string[];
  readonly inside: readonly string[];
  /** Of what is worn: eyes, gloves, hearing. */
  readonly what: string | null;
}

/** What the job asks for on the way, as its brief says. */
export interface Asked {
  readonly id: string;
  readonly phase: string;
  readonly kind: string;
  /**
   * Links, nodes, controls, lines of the sheet and milestones that it names, by key; numbers too.
   * Where flow is asked for without a link, it has to be found which of the still ones it is.
   */
  readonly names: Readonly<Record<string, string>>;
  readonly numbers: Readonly<Record<string, number>>;
  readonly still: readonly string[];
  readonly after: readonly string[];
}

/** What the job asks for at the end: numbers in the unit of its key. */
export interface Aim {
  readonly kind: string;
  readonly names: Readonly<Record<string, string>>;
  readonly numbers: Readonly<Record<string, number>>;
}

export interface SheetLine {
  readonly id: string;
  readonly reading: string | null;
  /** Links that it is about, by what it is called and how they are lettered on the drawing. */
  readonly of: readonly string[];
}

/** What a trainee knows before a hand is put to anything. */
export interface Briefing {
  readonly nodes: readonly SeenNode[];
  readonly links: readonly SeenLink[];
  readonly instruments: readonly SeenInstrument[];
  readonly devices: readonly SeenDevice[];
  readonly sheet: readonly SheetLine[];
  /**
   * The air that is left, worked out: lines for the level with the return open and shut, m that it
   * falls for what pipes and hoses give and for each m3 of air, and m that it can be read to.
   */
  readonly proof: {
    readonly open: string;
    readonly shut: string;
    readonly stretch: number;
    readonly each: number;
    readonly read: number;
  } | null;
  readonly antifreeze: string;
  /**
   * Tanks that it comes in: m3 of what is in one in a m3 of the mixture asked for, by its data
   * sheet; and m3 if it were undiluted.
   */
  readonly products: readonly {
    readonly tank: string;
    readonly share: number;
    readonly neat_share: number;
  }[];
  /** The part that has to be free of air. */
  readonly loop: readonly string[];
  readonly rule_velocity_m_s: number;
  readonly air_allowed_L: number;
  readonly hand_over: readonly { readonly control: string; readonly state: string }[];
  readonly asked: readonly Asked[];
  readonly aims: readonly Aim[];
}

/** A moment as a trainee has it. Deeply frozen, and of plain data. */
export interface View {
  readonly time_s: number;
  readonly panel: Panel;
  readonly scene: Scene;
}
