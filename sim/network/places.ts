// A list of numbers turned round: from a thing to its place in the list.

/** Place of each of `count` things in a list of their numbers, or -1. */
export function placesIn(list: ArrayLike<number>, count: number): Int32Array {
  const places = new Int32Array(count).fill(-1);
  for (let at = 0; at < list.length; at++) places[list[at]!] = at;
  return places;
}
