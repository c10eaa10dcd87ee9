// A pen for the part of the drawing that never changes: strokes on an ordinary canvas, which
// browsers draw smoother than any frame buffer, painted once and shown as a texture.
import { INK, LINE } from './tokens.ts';

export interface Spot {
  readonly x: number;
  readonly y: number;
}
export interface Area extends Spot {
  readonly w: number;
  readonly h: number;
}

export class Pen {
  readonly ctx: CanvasRenderingContext2D;
  /** Weight of lines and small parts against the wide drawing. */
  readonly weight: number;

  constructor(ctx: CanvasRenderingContext2D, weight: number) {
    this.ctx = ctx;
    this.weight = weight;
    ctx.lineCap = 'round';
    ctx.lineJoin = 'round';
  }

  path(points: readonly Spot[], close = false): void {
    const { ctx } = this;
    ctx.beginPath();
    points.forEach((p, i) => (i === 0 ? ctx.moveTo(p.x, p.y) : ctx.lineTo(p.x, p.y)));
    if (close) ctx.closePath();
  }

  stroke(points: readonly Spot[], width: number, color: string = INK.ink): void {
    this.path(points);
    this.line(width, color);
  }

  /** Strokes the current path. */
  line(width: number, color: string = INK.ink): void {
    this.ctx.lineWidth = width;
    this.ctx.strokeStyle = color;
    this.ctx.stroke();
  }

  /** Fills the current path and inks its edge. */
  body(fill: string, width: number = LINE.pipe * this.weight, edge: string = INK.ink): void {
    this.ctx.fillStyle = fill;
    this.ctx.fill();
    if (width > 0) this.line(width, edge);
  }

  shape(points: readonly Spot[], fill: string, width?: number): void {
    this.path(points, true);
    this.body(fill, width);
  }

  box(area: Area, fill: string, radius = 0, width?: number): void {
    this.ctx.beginPath();
    this.ctx.roundRect(area.x, area.y, area.w, area.h, radius);
    this.body(fill, width);
  }

  disc(at: Spot, r: number, fill: string, width?: number): void {
    this.ctx.beginPath();
    this.ctx.arc(at.x, at.y, r, 0, 2 * Math.PI);
    this.body(fill, width);
  }

  /** A pipe: ink edge, body, and a light line where the light falls. */
  pipe(points: readonly Spot[], width: number, look: { body: string; light: string | null }): void {
    const { ctx } = this;
    const edge = 2 * LINE.pipe * this.weight;
    ctx.save();
    ctx.lineCap = 'butt';
    this.path(points);
    this.line(width + edge, INK.ink);
    this.path(points);
    this.line(width, look.body);
    if (look.light !== null) {
      ctx.translate(0, -width * 0.2);
      this.path(points);
      this.line(Math.max(1, width * 0.16), look.light);
    }
    ctx.restore();
  }

  /** Draws inside a clipped area only. */
  within(points: readonly Spot[], draw: () => void): void {
    this.ctx.save();
    this.path(points, true);
    this.ctx.clip();
    draw();
    this.ctx.restore();
  }
}
