// The stage behind the yard's door: layers from back to front and what is drawn on each.
import type { GameObjects, Scene as PhaserScene, Textures, Types } from 'phaser';
import type { Snapshot, Xray } from '../../sim/index.ts';
import type { Box, Conduit, YardLayout } from '../yard/layout.ts';
import { drawHands, drawHot, LiveDial, LivePump } from './live-parts.ts';
import { LivePipe } from './live-pipes.ts';
import type { Frame, Inside } from './live-tones.ts';
import { casing, crossings } from './live-ribbon.ts';
import { drawOutlet, drawPuddle, LiveTank, stream } from './live-tank.ts';
import { drawCoupling, drawValve } from './live-valves.ts';
import { paintCartBack, paintCartFront, paintCartMiddle } from './paint-cart.ts';
import { paintBoard, paintKit } from './paint-kit.ts';
import { paintField } from './paint-field.ts';
import { paintHouse } from './paint-house.ts';
import { paintLand } from './paint-land.ts';
import {
  paintConduit,
  paintFittings,
  paintJoints,
  paintMeters,
  paintParts,
  paintRings,
} from './paint-pipes.ts';
import { paintWords, type Words } from './paint-words.ts';
import { Pen } from './pen.ts';
import { drawRings } from './rings.ts';

export interface StageOptions {
  readonly layout: YardLayout;
  readonly words: Words;
  readonly still: boolean;
  readonly zoom: number;
}

interface Paper {
  readonly texture: Textures.CanvasTexture;
  readonly image: GameObjects.Image;
  readonly area: Box;
}

export class YardStage {
  private readonly opts: StageOptions;
  private readonly yard: YardLayout;
  private readonly pipes: { live: LivePipe; over: [number, number][] }[];
  private readonly tanks: LiveTank[];
  private readonly dials: LiveDial[];
  private readonly pumps: LivePump[];
  private readonly boxes: ReadonlyMap<string, Box>;
  private scene: PhaserScene | null = null;
  private papers: Paper[] = [];
  private inner: GameObjects.Graphics | null = null;
  private outer: GameObjects.Graphics | null = null;
  private zoom: number;
  private hot: string | null = null;
  private time = 0;

  constructor(opts: StageOptions) {
    this.opts = opts;
    this.yard = opts.layout;
    this.zoom = opts.zoom;
    const order = backToFront(this.yard.conduits);
    this.pipes = order.map((conduit, k) => ({
      live: new LivePipe(conduit, this.yard.pipe),
      over: crossings(conduit, order.slice(0, k)),
    }));
    this.tanks = this.yard.tanks.map((t) => new LiveTank(t, this.yard));
    this.dials = this.yard.dials.map((d) => new LiveDial(d));
    this.pumps = this.yard.pumps.map((p) => new LivePump(p));
    this.boxes = new Map(this.yard.placed.map((p) => [p.id, p]));
  }

  /** The scene as the renderer wants it; `ready` is called when all layers stand. */
  sceneConfig(ready: () => void): Types.Scenes.CreateSceneFromObjectConfig {
    const build = (scene: PhaserScene): void => {
      this.scene = scene;
      const { yard } = this;
      this.papers = [this.paper('back', { x: 0, y: 0, w: yard.width, h: yard.height })];
      this.inner = scene.add.graphics();
      frontAreas(yard).forEach((area, k) => this.papers.push(this.paper(`front${k}`, area)));
      this.outer = scene.add.graphics();
      this.fit(this.zoom);
      ready();
    };
    return {
      create(this: PhaserScene) {
        build(this);
      },
    };
  }

  private paper(key: string, area: Box): Paper {
    const scene = this.scene!;
    const texture = scene.textures.createCanvas(key, 8, 8);
    if (texture === null) throw new Error('no canvas for the drawing');
    const image = scene.add.image(area.x, area.y, key).setOrigin(0, 0);
    return { texture, image, area };
  }

  /** Paints the still layers again for `zoom` pixels a drawing unit. */
  fit(zoom: number): void {
    this.zoom = zoom;
    const { scene, yard } = this;
    if (scene === null) return;
    scene.cameras.main.setZoom(zoom).setOrigin(0, 0).setScroll(0, 0);
    this.papers.forEach((paper, k) => {
      const { area, texture, image } = paper;
      texture.setSize(Math.ceil(area.w * zoom), Math.ceil(area.h * zoom));
      const ctx = texture.getContext();
      ctx.setTransform(zoom, 0, 0, zoom, -area.x * zoom, -area.y * zoom);
      const pen = new Pen(ctx, yard.pipe);
      if (k === 0) paintBack(pen, yard, this.opts.words);
      else {
        paintCartFront(pen, yard);
        paintMeters(pen, yard);
      }
      texture.refresh();
      image.setTexture(texture.key).setScale(1 / zoom);
    });
  }

  setHot(id: string | null): void {
    this.hot = id;
  }

  draw(now: Snapshot, xray: Xray | null, frame: Frame): void {
    const { inner, outer } = this;
    if (inner === null || outer === null) return;
    if (!frame.still) this.time += frame.seconds * Math.min(4, Math.max(0, frame.speed));
    inner.clear();
    outer.clear();
    this.drawGround(inner, now);
    this.drawWater(inner, now, xray, frame);
    this.drawParts(outer, now, xray, frame);
  }

  private drawGround(g: GameObjects.Graphics, now: Snapshot): void {
    const { yard } = this;
    const drawn = { weight: yard.pipe, time: this.time };
    const kept = new Set(yard.outlets.filter((o) => o.goesTo !== 'ground').map((o) => o.id));
    const spilled = now.scene.outlets.reduce((sum, o) => sum + (kept.has(o.id) ? 0 : o.total), 0);
    const over = yard.tanks[0] ?? yard.frames[0]?.deck ?? { x: 0, w: yard.width };
    const puddle = { x: over.x + over.w / 2, y: yard.ground.line + 6, room: yard.width };
    drawPuddle(g, puddle, spilled * 1000, yard.pipe);
    for (const mark of yard.outlets) {
      const seen = now.scene.outlets.find((o) => o.id === mark.id);
      if (seen !== undefined) drawOutlet(g, mark, seen, drawn);
    }
  }

  private drawWater(g: GameObjects.Graphics, now: Snapshot, xray: Xray | null, frame: Frame): void {
    const { yard } = this;
    for (const tank of this.tanks) {
      const seen = now.scene.tanks.find((t) => t.id === tank.mark.id);
      if (seen === undefined) continue;
      tank.draw(g, seen, frame);
      this.drawSpouts(g, tank, seen.level, xray);
    }
    for (const { live, over } of this.pipes) {
      const { conduit } = live;
      const inside = insideOf(conduit, now, xray);
      if (conduit.inTank) casing(g, conduit, [[0, conduit.points.length - 1]], yard.pipe);
      else if (over.length > 0) casing(g, conduit, over, yard.pipe);
      if (inside !== null) live.draw(g, inside, frame);
      drawRings(g, conduit, yard.pipe);
    }
    for (const tank of this.tanks) {
      const seen = now.scene.tanks.find((t) => t.id === tank.mark.id);
      if (seen === undefined) continue;
      tank.drawTube(g, seen);
      tank.drawOverflow(g, seen, yard.ground.line + 4);
    }
  }

  /** What runs from the fill spout; only the x-ray tells how much. */
  private drawSpouts(
    g: GameObjects.Graphics,
    tank: LiveTank,
    level: number,
    xray: Xray | null,
  ): void {
    for (const spout of this.yard.spouts) {
      if (spout.tank !== tank.mark.id || xray === null) continue;
      const flow = xray.links.find((l) => l.id === spout.valve)?.flow ?? 0;
      const { mark } = tank;
      const foot = mark.y + mark.h * (1 - Math.min(1, level / mark.height_m));
      if (flow < 1e-6 || foot <= spout.y) continue;
      stream(g, { x: spout.x, top: spout.y, foot }, flow, {
        weight: this.yard.pipe,
        time: this.time,
      });
    }
  }

  private drawParts(g: GameObjects.Graphics, now: Snapshot, xray: Xray | null, frame: Frame): void {
    const { yard } = this;
    const { scene, panel } = now;
    for (const tank of this.tanks) {
      const seen = scene.tanks.find((t) => t.id === tank.mark.id);
      if (seen !== undefined) tank.drawMarker(g, seen);
    }
    for (const pump of this.pumps) {
      const seen = scene.pumps.find((p) => p.id === pump.mark.id);
      const gas = xray?.nodes.find((n) => n.id === pump.mark.casing)?.gas ?? null;
      if (seen !== undefined) pump.draw(g, seen, { frame, weight: yard.pipe, gas });
    }
    for (const dial of this.dials) {
      dial.draw(
        g,
        panel.readings.find((r) => r.id === dial.mark.id),
        frame,
        yard.pipe,
      );
    }
    for (const mark of yard.parts) {
      const seen = scene.couplings.find((c) => c.id === mark.id);
      if (seen !== undefined) drawCoupling(g, mark, seen, yard.pipe);
    }
    for (const mark of yard.valves) {
      const seen = scene.valves.find((v) => v.id === mark.id);
      if (seen !== undefined) drawValve(g, mark, seen, yard.pipe);
    }
    const hot = this.hot === null ? undefined : this.boxes.get(this.hot);
    if (hot !== undefined) drawHot(g, hot, yard.pipe);
    drawHands(g, scene.hands, this.boxes, yard.pipe);
    if (scene.helper !== null) drawHands(g, scene.helper, this.boxes, yard.pipe);
  }
}

/** Thin hoses first, then what lies in front: return, supply, the circuits, pipes in the tank. */
function backToFront(conduits: readonly Conduit[]): Conduit[] {
  const rank = (c: Conduit): number =>
    c.inTank ? 4 : c.length_m > 30 ? 3 : c.side === 'make_up' ? 0 : c.side === 'return' ? 1 : 2;
  return [...conduits].sort((a, b) => rank(a) - rank(b));
}

/** What the lenses show of a pipe: all of it by x-ray, a clear hose to the eye, else nothing. */
function insideOf(conduit: Conduit, now: Snapshot, xray: Xray | null): Inside | null {
  if (xray !== null) {
    const link = xray.links.find((l) => l.id === conduit.id);
    if (link !== undefined) return link;
  }
  const seen = now.scene.clear.find((c) => c.id === conduit.id);
  return seen === undefined ? null : { gas: seen.gas, antifreeze: null, velocity: seen.velocity };
}

/** The parts of the drawing that need a layer in front of the water. */
function frontAreas(yard: YardLayout): Box[] {
  const boxes: Box[] = [...yard.tanks, ...yard.outlets.map((o) => o.drum)];
  for (const { wheels, wheelR } of yard.frames) {
    for (const w of wheels) {
      boxes.push({ x: w.x - wheelR, y: w.y - wheelR, w: 2 * wheelR, h: 2 * wheelR });
    }
  }
  const pad = 14;
  const x = Math.max(0, Math.min(...boxes.map((b) => b.x)) - pad);
  const y = Math.max(0, Math.min(...boxes.map((b) => b.y)) - pad);
  const right = Math.min(yard.width, Math.max(...boxes.map((b) => b.x + b.w)) + pad);
  const low = Math.min(yard.height, Math.max(...boxes.map((b) => b.y + b.h)) + pad);
  const meters = yard.dials.filter((d) => d.stem.y === d.y);
  const reach = 16 * yard.pipe;
  return [
    { x, y, w: right - x, h: low - y },
    ...meters.map((d) => {
      const r = d.r + reach;
      return { x: d.x - r, y: d.y - r, w: 2 * r, h: 2 * r };
    }),
  ];
}

function paintBack(pen: Pen, yard: YardLayout, words: Words): void {
  paintLand(pen, yard);
  paintHouse(pen, yard);
  paintBoard(pen, yard);
  paintField(pen, yard);
  paintCartBack(pen, yard);
  paintCartMiddle(pen, yard);
  paintFittings(pen, yard);
  for (const conduit of backToFront(yard.conduits)) {
    if (conduit.inTank) continue;
    paintConduit(pen, conduit);
    paintRings(pen, conduit);
  }
  paintJoints(pen, yard);
  paintParts(pen, yard);
  paintKit(pen, yard);
  paintWords(pen, yard, words);
}
