// The drawing with real buttons over it. The canvas shows; these are what is touched, focused and
// read aloud. They stand where the layout says, in percent of the drawing.
import { useComputed, useSignal } from '@preact/signals';
import { useEffect, useLayoutEffect, useMemo, useRef } from 'preact/hooks';
import { controlsOf, isHandled, type Control } from '../controls.ts';
import { devicesOf, type DeviceControl } from '../devices.ts';
import { t } from '../i18n/index.ts';
import { leaderBetween, placeBeside, type Obstacle, type Rect } from '../place.ts';
import type { Play, Yard } from '../play.ts';
import type { Placed, YardLayout } from '../yard/layout.ts';
import { DeviceSlip, HandleSlip } from './handle.tsx';
import {
  DeviceHit, DeviceSpot, DialSpot, HandledHit, HeldSpot, PumpHit, TankHit,
} from './hits.tsx';

export interface StageProps {
  readonly play: Play;
  readonly layout: YardLayout;
  /** Brings the drawing up inside `parent`; rejects where it cannot be drawn. */
  readonly mount: (parent: HTMLElement, layout: YardLayout) => Promise<Yard>;
}

/** Least side of what fingers in gloves must hit, CSS px. */
const TOUCH = 44;
/** No more than this of the window is taken by what stays at its top and foot, CSS px. */
const STAYS = { wide: { top: 64, foot: 92 }, tall: { top: 165, foot: 0 } } as const;
/** Less room than this in sight is no room. */
const ROOM_MIN = 320;
/** What each pixel counts that a slip covers: a part, the large tank, a name. */
const COST = { part: 0.6, tank: 0.1, name: 0.04 } as const;

function rectOf(placed: Placed, scale: number): Rect {
  const w = Math.max(TOUCH, placed.w * scale);
  const h = Math.max(TOUCH, placed.h * scale);
  const x = (placed.x + placed.w / 2) * scale - w / 2;
  const y = (placed.y + placed.h / 2) * scale - h / 2;
  return { x, y, w, h };
}

function useDevices(play: Play) {
  return useComputed(() => {
    const list = devicesOf(play.level.scenario, play.seen.value, play.waiting.value);
    return new Map<string, DeviceControl>(list.map((device) => [device.id, device]));
  });
}

interface OverlayProps extends StageProps {
  readonly open: string | null;
  readonly setOpen: (id: string | null) => void;
}

function Overlay({ play, layout, open, setOpen }: OverlayProps) {
  const controls = useComputed(() => {
    const list = controlsOf(play.level.scenario, play.seen.value, play.waiting.value);
    return new Map<string, Control>(list.map((control) => [control.id, control]));
  });
  const devices = useDevices(play);
  return (
    <>
      {layout.placed.map((placed) => {
        const props = { play, placed, layout };
        const control = controls.value.get(placed.id);
        if (isHandled(control)) {
          const hit = { ...props, control, open: open === placed.id, setOpen };
          return <HandledHit key={placed.id} {...hit} />;
        }
        const device = devices.value.get(placed.id);
        if (device !== undefined) {
          const hit = { ...props, device, open: open === placed.id, setOpen };
          return <DeviceHit key={placed.id} {...hit} />;
        }
        if (placed.kind === 'held') return <HeldSpot key={placed.id} {...props} />;
        if (control?.kind === 'pump') return <PumpHit key={placed.id} {...props} pump={control} />;
        if (control?.kind === 'tank') return <TankHit key={placed.id} {...props} />;
        return <DialSpot key={placed.id} {...props} />;
      })}
    </>
  );
}

/** While one looks again: the kit has no picture but its signs, and they show how it stood. */
function Looked({ play, layout }: Pick<StageProps, 'play' | 'layout'>) {
  const devices = useDevices(play);
  return (
    <>
      {layout.placed.map((placed) => {
        const props = { play, placed, layout };
        if (placed.kind === 'held') return <HeldSpot key={placed.id} {...props} />;
        const device = devices.value.get(placed.id);
        if (device === undefined) return null;
        return <DeviceSpot key={placed.id} {...props} device={device} />;
      })}
    </>
  );
}

interface OpenSlipProps extends OverlayProps { readonly scale: number }

/** What a slip should leave in sight: other controls and instruments before all, then names. */
function worthSeeing(layout: YardLayout, open: string | null, scale: number): Obstacle[] {
  const names = layout.labels.map(({ x, y, w, h }) => ({
    x: x * scale, y: y * scale, w: w * scale, h: h * scale, cost: COST.name,
  }));
  const parts = layout.placed.flatMap((one) => {
    if (one.id === open) return [];
    return [{ ...rectOf(one, scale), cost: one.kind === 'tank' ? COST.tank : COST.part }];
  });
  return [...parts, ...names];
}

/** Where captions lie over the drawing just now, in its pixels. */
function captionsOver(inside: HTMLElement | null): Obstacle[] {
  const stage = inside?.closest('.stage')?.getBoundingClientRect();
  const captions = inside?.closest('.sheet')?.querySelector('.captions')?.getBoundingClientRect();
  if (stage === undefined || captions === undefined) return [];
  const { x, y, width: w, height: h } = captions;
  return [{ x: x - stage.x, y: y - stage.y, w, h, cost: COST.part }];
}

/** The part of the drawing that is in sight, in its own pixels. */
function roomFor(inside: HTMLElement | null, layout: YardLayout, scale: number): Rect {
  const all = { x: 6, y: 6, w: layout.width * scale - 12, h: layout.height * scale - 12 };
  const stage = inside?.closest('.stage')?.getBoundingClientRect();
  if (stage === undefined) return all;
  const stays = STAYS[layout.shape];
  const top = Math.max(all.y, stays.top - stage.y);
  const bottom = Math.min(all.y + all.h, window.innerHeight - stays.foot - stage.y);
  return bottom - top < ROOM_MIN ? all : { ...all, y: top, h: bottom - top };
}

/** The slip of the valve or coupling that was tapped, laid beside it. */
function OpenSlip({ play, layout, open, setOpen, scale }: OpenSlipProps) {
  const box = useRef<HTMLDivElement>(null);
  const size = useSignal({ w: 316, h: 150 });
  const placed = layout.placed.find((one) => one.id === open);
  const list = controlsOf(play.level.scenario, play.seen.value, play.waiting.value);
  const control = list.find(({ id }) => id === open);
  const devices = devicesOf(play.level.scenario, play.seen.value, play.waiting.value);
  const device = devices.find(({ id }) => id === open);
  useLayoutEffect(() => {
    const slip = box.current?.lastElementChild;
    if (!(slip instanceof HTMLElement)) return;
    const now = { w: slip.offsetWidth, h: slip.offsetHeight };
    if (now.w !== size.value.w || now.h !== size.value.h) size.value = now;
  });
  const { w, h } = size.value;
  // Found once: a slip that moves while the page scrolls or a name comes up would be no help.
  const place = useMemo(() => {
    if (placed === undefined) return { left: 0, top: 0 };
    const others = [...worthSeeing(layout, open, scale), ...captionsOver(box.current)];
    const room = roomFor(box.current, layout, scale);
    return placeBeside(rectOf(placed, scale), { w, h }, room, others);
  }, [placed, layout, open, scale, w, h]);
  const handled = isHandled(control) ? control : null;
  if (placed === undefined || (handled === null && device === undefined)) return <div ref={box} />;
  const slip = { x: place.left, y: place.top, w, h };
  const [x1, y1, x2, y2] = leaderBetween(rectOf(placed, scale), slip);
  const slipProps = { play, place, close: () => setOpen(null) };
  const key = (event: KeyboardEvent) => {
    if (event.key === 'Escape') setOpen(null);
  };
  return (
    <div ref={box} onKeyDown={key}>
      <svg class="leader" aria-hidden="true">
        <path d={`M${x1} ${y1}L${x2} ${y2}`} />
        <circle cx={x1} cy={y1} r="3" />
      </svg>
      {handled !== null && <HandleSlip control={handled} {...slipProps} />}
      {device !== undefined && <DeviceSlip device={device} {...slipProps} />}
    </div>
  );
}

export function Stage({ play, layout, mount }: StageProps) {
  const stage = useRef<HTMLDivElement>(null);
  const paper = useRef<HTMLDivElement>(null);
  const state = useSignal<'loading' | 'drawn' | 'none'>('loading');
  const open = useSignal<string | null>(null);
  const scale = useSignal(1);
  const setOpen = useMemo(() => (id: string | null) => { open.value = id; }, [open]);
  useEffect(() => {
    const parent = paper.current;
    if (parent === null) return undefined;
    let gone = false;
    state.value = 'loading';
    mount(parent, layout).then(
      (yard) => {
        if (gone) return yard.destroy();
        play.yard = yard;
        state.value = 'drawn';
        play.ready();
      },
      () => {
        state.value = 'none';
        play.ready();
      },
    );
    const watch = new ResizeObserver(() => {
      scale.value = parent.clientWidth / layout.width;
      // A drawing taller than the window scrolls on until its foot is in sight, and stays then.
      const yardPage = parent.closest<HTMLElement>('.yard');
      yardPage?.style.setProperty('--sheet', `${parent.clientHeight}px`);
      play.yard?.resize();
    });
    watch.observe(parent);
    return () => {
      gone = true;
      watch.disconnect();
      play.yard?.destroy();
      play.yard = null;
    };
  }, [layout, mount, play, scale, state]);
  useEffect(() => {
    const away = (event: PointerEvent) => {
      const target = event.target;
      if (!(target instanceof Element) || target.closest('.handle-slip, .hit') !== null) return;
      open.value = null;
    };
    document.addEventListener('pointerdown', away);
    return () => document.removeEventListener('pointerdown', away);
  }, [open]);
  const props = { play, layout, mount, open: open.value, setOpen };
  return (
    <div
      ref={stage} class="stage" data-shape={layout.shape}
      style={{ aspectRatio: `${layout.width} / ${layout.height}` }}
    >
      <div ref={paper} class="paper" aria-hidden="true" />
      {state.value === 'loading' && <p class="stage-note">{t('app.loading')}</p>}
      {state.value === 'none' && <p class="stage-note">{t('app.no_drawing')}</p>}
      {play.session.repeats ? <Looked play={play} layout={layout} /> : (
        <>
          <Overlay {...props} />
          <OpenSlip {...props} scale={scale.value} />
        </>
      )}
    </div>
  );
}
