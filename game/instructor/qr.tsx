// A link as a square code for a camera, drawn as one path: dark on light, as cameras want it.
import { encode } from 'uqr';

const BORDER = 4; // Modules of quiet around the code, ISO/IEC 18004 (from memory).

export function Qr({ text, name }: { readonly text: string; readonly name: string }) {
  const { size, data } = encode(text, { ecc: 'L', border: BORDER });
  const path = data.flatMap((row, y) =>
    row.flatMap((dark, x) => (dark ? [`M${x} ${y}h1v1h-1z`] : []))).join('');
  return (
    <svg class="qr" viewBox={`0 0 ${size} ${size}`} role="img" aria-label={name}>
      <rect width={size} height={size} fill="#fff" />
      <path d={path} fill="#000" shape-rendering="crispEdges" />
    </svg>
  );
}
