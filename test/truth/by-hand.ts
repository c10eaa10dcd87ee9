// Water at 20 C and its loss in smooth pipe, as one works them out by hand: for tests of whole
// worlds whose expected values stand beside them. Nothing here is of sim/.

export const [G, RHO, NU] = [9.80665, 998.2071, 1.0034e-6]; // Kell 1975, IAPWS.

/** Darcy's loss of water at 20 C in smooth pipe, Pa: laminar, or Colebrook 1939. */
export function darcy(V: number, D: number, L: number): number {
  const Re = (V * D) / NU;
  let x = 7;
  for (let k = 0; k < 40; k++) x = -2 * Math.log10(1.5e-6 / (3.7 * D) + (2.51 * x) / Re);
  const f = Re < 2100 ? 64 / Re : 1 / (x * x);
  return (f * L * RHO * V * V) / (2 * D);
}
