// The yard on the screen: still parts painted once on a canvas, moving parts redrawn a frame.
// Shows a snapshot; takes no input, makes no sound, keeps no state but needles and phases.
import type { Snapshot, Xray } from '../../sim/index.ts';
import type { YardLayout } from '../yard/layout.ts';
import { Pace } from './pace.ts';
import { YardStage, type StageOptions } from './stage.ts';

export interface YardOptions {
  readonly words: (key: string) => string;
  readonly reducedMotion: boolean;
  /** False where there is no graphics card: no multisampling, and fewer pictures a second. */
  readonly antialias: boolean;
  /** Wall seconds from one picture to the next, at least, where somebody has asked for that. */
  readonly least_s?: number | null;
  /** Numbers as the page's language writes them; plain digits if left out. */
  readonly number?: (value: number) => string;
}

export interface YardView {
  /** Draws `now`; `wallSeconds` since the last draw and the clock's speed move the patterns. */
  draw(now: Snapshot, xray: Xray | null, wallSeconds: number, speed: number): void;
  /** The control that is focused or under the pointer, or null. */
  setHot(id: string | null): void;
  /** Fits the picture to its parent again. */
  resize(): void;
  destroy(): void;
}

/** Sharper than this no eye sees, and the frame costs the square of it. */
const DENSITY_MAX = 2;
/** Without a graphics card a picture takes most of a core: so long from one to the next, s. */
const PLAIN_S = 0.1;

function densityOf(parent: HTMLElement, yard: YardLayout): { w: number; h: number; zoom: number } {
  const box = parent.getBoundingClientRect();
  const css = box.width > 0 ? box.width : yard.width;
  const scale = Math.min(DENSITY_MAX, globalThis.devicePixelRatio || 1);
  const w = Math.max(1, Math.round(css * scale));
  return { w, h: Math.round((w * yard.height) / yard.width), zoom: w / yard.width };
}

/**
 * Puts the drawing into `parent`, whose shape must be `layout.width` to `layout.height`.
 * Loads the renderer on first use. @throws where the browser can give no WebGL context
 */
export async function mountYard(
  parent: HTMLElement,
  layout: YardLayout,
  opts: YardOptions,
): Promise<YardView> {
  const font = getComputedStyle(parent).fontFamily || 'sans-serif';
  const [Phaser] = await Promise.all([
    import('phaser'),
    document.fonts.load(`560 ${layout.type}px ${font}`).catch(() => []),
  ]);
  const size = densityOf(parent, layout);
  const options: StageOptions = {
    layout,
    words: { say: opts.words, number: opts.number ?? String, font },
    still: opts.reducedMotion,
    zoom: size.zoom,
  };
  const stage = new YardStage(options);
  const game = await start(Phaser, parent, { size, antialias: opts.antialias, stage });
  game.loop.sleep(); // The page's clock is the only one: a picture is made when it says so.
  const picture = (seconds: number) => game.step(performance.now(), seconds * 1000);
  const pace = new Pace(opts.least_s ?? (opts.antialias ? 0 : PLAIN_S));
  let hot: string | null = null;
  const view: YardView = {
    draw: (now, xray, wallSeconds, speed) => {
      const moment = { tick: now.tick, speed, lens: xray !== null, hot };
      const seconds = pace.due(moment, wallSeconds);
      if (seconds === null) return;
      stage.draw(now, xray, { seconds, speed, still: opts.reducedMotion });
      picture(seconds);
    },
    setHot: (id) => {
      hot = id;
      stage.setHot(id);
    },
    resize: () => {
      const next = densityOf(parent, layout);
      if (next.w === game.scale.width) return;
      game.scale.resize(next.w, next.h);
      dress(game.canvas);
      stage.fit(next.zoom);
      pace.wake();
    },
    destroy: () => {
      game.destroy(true);
      picture(0); // The renderer goes at its next step.
    },
  };
  return view;
}

type PhaserModule = typeof import('phaser');

interface Start {
  readonly size: { w: number; h: number; zoom: number };
  readonly antialias: boolean;
  readonly stage: YardStage;
}

/** The canvas is a picture only: HTML over it takes every pointer and every key. */
function dress(canvas: HTMLCanvasElement): void {
  canvas.setAttribute('aria-hidden', 'true');
  canvas.tabIndex = -1;
  Object.assign(canvas.style, {
    width: '100%',
    height: '100%',
    display: 'block',
    pointerEvents: 'none',
  });
}

function start(Phaser: PhaserModule, parent: HTMLElement, how: Start): Promise<Phaser.Game> {
  return new Promise((resolve, reject) => {
    try {
      const game: Phaser.Game = new Phaser.Game({
        type: Phaser.WEBGL,
        parent,
        width: how.size.w,
        height: how.size.h,
        backgroundColor: '#F5F0E6',
        banner: false,
        autoFocus: false,
        audio: { noAudio: true },
        input: { keyboard: false, mouse: false, touch: false, gamepad: false, windowEvents: false },
        render: { antialias: true, antialiasGL: how.antialias, powerPreference: 'low-power' },
        scale: { mode: Phaser.Scale.NONE },
        scene: how.stage.sceneConfig(() => {
          dress(game.canvas);
          resolve(game);
        }),
      });
    } catch (error) {
      reject(error instanceof Error ? error : new Error(String(error)));
    }
  });
}
