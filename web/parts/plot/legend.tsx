import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { phrasesOf } from '../../app/language.ts';
import type { ComponentChildren } from 'preact';
import type { Side } from '../../../shared/words.ts';
import { Marker } from './marks.tsx';

const common = phrasesOf('common', commonWords);

/** Explains the marks of a plot, in the same shapes. */
export function Legend({ children }: { children: ComponentChildren }) {
  return <ul class="legend">{children}</ul>;
}

export function LegendSide({ side }: { side: Side }) {
  return (
    <LegendItem
      text={common(side === 'unknown' ? 'side_unknown' : side)}
      mark={
        <>
          <path class={`series ${side}`} d="M0 9H36" />
          <Marker side={side} cx={18} cy={9} />
        </>
      }
    />
  );
}

export function LegendBand({ text }: { text: string }) {
  return (
    <LegendItem
      text={text}
      mark={
        <>
          <rect class="band-far" x="0" y="1" width="36" height="16" />
          <path class="band-edge" d="M0 1H36M0 17H36" />
          <rect class="band" x="0" y="5" width="36" height="8" />
          <path class="band-centre" d="M0 9H36" />
        </>
      }
    />
  );
}

export function LegendEarlier({ text }: { text: string }) {
  return <LegendItem text={text} mark={<path class="earlier" d="M0 12L12 6L24 11L36 5" />} />;
}

export function LegendBeyond() {
  return <LegendItem text={common('beyond_normal_variation')} mark={<Marker side="left" cx={18} cy={9} beyond />} />;
}

function LegendItem({ mark, text }: { mark: ComponentChildren; text: string }) {
  return (
    <li>
      <svg width="36" height="18" aria-hidden="true" overflow="visible">
        {mark}
      </svg>
      {text}
    </li>
  );
}
