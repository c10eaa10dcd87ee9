// Tolerances and limits of the scheme: each with its unit, its reason, and what breaks if it
// moves. Physical laws have their own constants beside them; thresholds of hazards are here too.

/** s and m. Tick and cell of a scenario that says none; the convergence study halves both. */
export const TICK_S = 0.1;
export const CELL_M = 1;

/** m. Longest pipe length of one rigid column; shorter columns follow pockets better. */
export const COLUMN_LENGTH_MAX = 25;

/**
 * Most Newton passes a tick. A quiet tick settles in one or two, a turning valve takes three. Air
 * let go at once through a fitting without mass halves its error with each: three passes left it
 * far beyond any speed, and the books burst.
 */
export const NEWTON_PASSES = 20;

/**
 * Weight of the new end of the tick for pipes. 0.5 keeps every ringing for ever, 1 takes half
 * of a cushion's swing each period; 0.55 keeps nine tenths.
 */
export const THETA_PIPE = 0.55;

/** Share of the room a volume has too much or too little that is put right each tick. */
export const RELAX = 0.3;

/** Pa abs. Lowest pressure a volume may show; below vapour pressure a void opens instead. */
export const PRESSURE_MIN = 1000;

/** m3/(s Pa). How eagerly a void opens below vapour pressure: 1 L/s a kilopascal. */
export const VOID_CONDUCTANCE = 1e-6;

/** Largest fall of a node's pressure in one Newton pass, as a share of it. */
export const PRESSURE_FALL_MAX = 0.6;

/** J (Pa m3). Gas less than this is moved to a ledger: 0.01 mm3 at 1 atm; guards denormals. */
export const GAS_DUST = 1e-6;
/** kg. Liquid less than this is moved to a ledger. */
export const LIQUID_DUST = 1e-9;

/** Most that one face may exchange against the flow, as a share of the slip speed: the flooding
 *  ceiling of a vertical leg, 0.30 sqrt(g D), over the rise of a long bubble, 0.34 sqrt(g D). */
export const EXCHANGE_MAX = 0.88;

/** m3. Half a litre: what a control volume needs at least, and most fittings of a yard hold. */
export const VOLUME_LEAST = 0.0005;

/**
 * m. Unless the scenario says its room, a fitting holds as much as this length of its widest pipe,
 * as its own body and stubs do [fit].
 */
export const FITTING_ROOM_LENGTH = 0.25;
/** m. Length over which gas in two joined fittings feels their difference of height. */
export const FITTING_LENGTH = 0.25;

/** s. Solutes are carried along pipes this often: two ticks of 0.1 s, four of 0.05 s. */
export const SOLUTE_S = 0.2;

/** s. Liquid of every column is looked at this often, for its losses. */
export const MIX_S = 1;

/** s. Walls of polyethylene creep in steps of this; what they give sooner they give at once. */
export const CREEP_S = 1;

/** s. How long one valve-less link's water takes to answer when it has no length: m of water. */
export const FITTING_INERTIA_LENGTH = 0.3;

/** m/s. Velocity below which local losses turn linear, so that their slope is finite at rest. */
export const LOCAL_LOSS_LINEAR_BELOW = 0.01;

/** Pa. From here on a rating is none: it stands far above what any part is rated for. */
export const UNRATED = 1e11;

/** Commands that may wait for the hands. */
export const HANDS_QUEUE = 16;

/** Ticks between two hashes kept in a record: 20 s at the tick of the jobs. */
export const CHECK_EVERY = 100;
/** The same in steps of a night, which are longer: ten minutes. */
export const CHECK_EVERY_AWAY = 3000;

/** m, kg/m3. Air that a tank's surface lets through leaves by bubbles of two sizes. */
export const BUBBLE_COARSE = 0.004;
export const BUBBLE_FINE = 0.0005;
/** Share of gas arriving under water that is torn to fine bubbles [fit, no source]. */
export const FINE_SHARE = 0.02;
/** Share of the air that breaks a surface which foams that stays on it as foam [fit, no source]. */
export const FOAM_SHARE = 0.05;

/** s. Debris is moved this often, and oftener where a cell is left sooner at this many m/s. */
export const DEBRIS_S = 0.2;
export const DEBRIS_VELOCITY = 2.5;
/** kg. Less of a class than this stays where it is: it is a thousandth of a grain of silt. */
export const GRAIN_LEAST = 1e-15;
/** s, m/s. A flow against an element's own, or from before, of this at least washes off what is
 *  loose on it in about this time [fit, no source]. */
export const SHED_S = 5;
export const DEBRIS_REVERSED = 0.02;
