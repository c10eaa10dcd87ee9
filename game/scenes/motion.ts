// Motion that is drawn but not simulated: the needle's own swing, the turn of an impeller.
// Everything follows wall time, so that a needle swings the same at every clock speed.

/** A needle on its spring: follows `target`, overshoots a little, comes to rest. */
export class Needle {
  at = 0;
  private rate = 0;
  private set = false;

  /** Natural frequency 11 rad/s, damping ratio 0.55: as a small dial gauge looks. */
  follow(target: number, seconds: number, still: boolean): number {
    if (!this.set || still) {
      this.at = target;
      this.rate = 0;
      this.set = true;
      return this.at;
    }
    const omega = 11;
    const zeta = 0.55;
    const steps = Math.max(1, Math.ceil(seconds / 0.008));
    const h = Math.min(0.1, seconds) / steps;
    for (let k = 0; k < steps; k++) {
      this.rate += (omega * omega * (target - this.at) - 2 * zeta * omega * this.rate) * h;
      this.at += this.rate * h;
    }
    // The stop pins hold the needle just beyond both ends of the scale.
    if (this.at < -0.03 || this.at > 1.04) {
      this.at = Math.min(1.04, Math.max(-0.03, this.at));
      this.rate = 0;
    }
    return this.at;
  }
}

/** Largest share of its period a pattern may move in a frame without seeming to turn back. */
const ALIAS = 0.34;

/** A pattern that travels: its phase in periods, never so fast that the eye sees it reverse. */
export class Drift {
  phase = 0;

  advance(periods: number): number {
    this.phase += Math.min(ALIAS, Math.max(-ALIAS, periods));
    return this.phase;
  }
}
