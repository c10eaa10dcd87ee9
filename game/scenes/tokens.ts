// Colours of the drawing. Every pair that carries meaning is also told apart by shape or pattern.

export const INK = {
  paper: '#F5F0E6',
  shade: '#ECE4D3',
  ink: '#26282B',
  muted: '#5F5A50',
  faint: '#A79F8F',
  water: '#3B7EA1',
  back: '#8FB9CC',
  deep: '#2F6885',
  antifreeze: '#7A9A3F',
  accent: '#C0492F',
  accentDeep: '#8E321E',
  pipe: '#B7B0A2',
  pipeLight: '#D3CDC0',
  steel: '#C6C4BD',
  steelLight: '#E4E2DB',
  board: '#D8C6A2',
  boardDeep: '#B59E73',
  rubber: '#45474A',
  turf: '#CFCFA9',
  turfDeep: '#8C9468',
  grass: '#6D7F4F',
  sky: '#DDE6E6',
  skyLow: '#F1EEE3',
  hill: '#D3DAD2',
  hillNear: '#C6CFBF',
  soils: ['#D9C9AB', '#CDBB96', '#B9AD98'],
  trench: '#E9DDC3',
  grout: '#DCD5C6',
  wall: '#E3D3B8',
  brick: '#C99B7E',
  room: '#EFE6D3',
} as const;

/** A colour as the number the live layer takes. */
export const num = (css: string): number => Number.parseInt(css.slice(1), 16);

/** Line weights, in drawing units of the wide drawing. */
export const LINE = { body: 3.5, pipe: 2, detail: 1.25, leader: 1.1 } as const;

/** A fixed scatter: the same picture every time, no chance involved. */
export function scatter(k: number): number {
  let h = Math.imul(k ^ 0x9e3779b9, 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return ((h ^ (h >>> 16)) >>> 0) / 4294967296;
}
