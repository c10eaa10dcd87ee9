// The version of the physics and of the record's meaning. A record replays only on its own.

/** Raise whenever a change alters the bits of any run. */
export const ENGINE = '4.2';
