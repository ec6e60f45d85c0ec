import { dyePaint } from '../../ui/dye.ts';
import type { EyeSpot, PlacedLabel } from './eye-spots.ts';
import type { HitSpot } from './layout.ts';
import { NoteInk, type RibbonInk } from './note-ink.tsx';
import { spokenLabel } from './note-labels.ts';
import styles from './ribbon-sheet.module.css';
import type { NoteWalk } from './use-note-walk.ts';

interface SpotProps<Spot> {
  readonly spot: Spot;
  readonly isPale: boolean;
  readonly ink: RibbonInk | null;
  readonly walk: NoteWalk;
}

const octaveOf = (midi: number): number => Math.floor(midi / 12) - 1;
const hitWords: Readonly<Record<HitSpot['hit'], string>> = {
  lowBody: 'low tap',
  highBody: 'high tap',
  stringSlap: 'slap on the strings',
  deadNote: 'dead note',
};

/** A note's eye with its name; a note on two lines wears two rings. */
export function NoteEye({ spot, isPale, ink, walk }: SpotProps<EyeSpot>) {
  const [line, other] = spot.lines;
  if (line === undefined) return null;
  const words = `${spot.name}${octaveOf(spot.midi)}, ${spot.lines.map(({ name }) => name).join(' and ')}, bar ${spot.bar.label}${labelWords(spot)}${unsureWords(spot.note, ink)}`;
  return (
    <g
      transform={`translate(${spot.x} ${spot.y})`}
      className={styles.note}
      data-pale={isPale}
      {...pressable(spot.note, line.id, words, spot.startTicks, walk)}
    >
      <rect x="-12" y="-14" width="24" height="28" fill="transparent" />
      {other === undefined ? null : (
        <ellipse
          rx={spot.isSmall ? 6.5 : spot.rx + 3.1}
          ry={spot.isSmall ? 8 : 13}
          className={styles.eye}
          stroke={dyePaint[other.dye].colour}
        />
      )}
      <ellipse rx={spot.rx} ry={spot.isSmall ? 4.8 : 10} className={styles.eye} stroke={dyePaint[line.dye].colour} />
      {spot.label === null ? null : <LabelText label={spot.label} />}
      <NoteInk note={spot.note} ink={ink} isSmall={spot.isSmall} />
    </g>
  );
}

/** What stands in an eye, or beside it. */
const LabelText = ({ label: { text, isInside, dx, dy } }: { readonly label: PlacedLabel }) => (
  <text
    x={dx}
    y={dy + 4.2}
    textAnchor="middle"
    className={isInside ? styles.name : styles.words}
    pointerEvents="none"
    data-label=""
  >
    {text}
  </text>
);

/** A hit's cross on its dotted thread. */
export function NoteHit({ spot, isPale, ink, walk }: SpotProps<HitSpot>) {
  const cross = 'M-5 -6L5 6M5 -6L-5 6';
  return (
    <g
      transform={`translate(${spot.x} ${spot.y})`}
      className={styles.note}
      data-pale={isPale}
      {...pressable(
        spot.note,
        spot.line.id,
        `${hitWords[spot.hit]}, ${spot.line.name}, bar ${spot.bar.label}${unsureWords(spot.note, ink)}`,
        spot.startTicks,
        walk,
      )}
    >
      <rect x="-12" y="-12" width="24" height="24" fill="transparent" />
      <path d={cross} className={styles.crossGap} />
      <path d={cross} className={styles.cross} stroke={dyePaint[spot.line.dye].colour} />
      <NoteInk note={spot.note} ink={ink} isSmall={false} />
    </g>
  );
}

function labelWords({ label }: EyeSpot): string {
  const spoken = label === null ? null : spokenLabel(label.kind, label.text);
  return spoken === null ? '' : `, ${spoken}`;
}

const unsureWords = (note: EyeSpot['note'], ink: RibbonInk | null): string =>
  ink?.unsure.has(note) === true ? ', unsure' : '';

interface Pressable {
  readonly role: 'button';
  readonly tabIndex: number;
  readonly 'aria-label': string;
  readonly 'data-note': string;
  readonly 'data-line': string;
  readonly onFocus: () => void;
  readonly onClick: () => void;
}

const pressable = (
  note: EyeSpot['note'],
  line: EyeSpot['lines'][number]['id'],
  words: string,
  startTicks: number,
  walk: NoteWalk,
): Pressable => ({
  role: 'button',
  tabIndex: walk.current === note ? 0 : -1,
  'aria-label': words,
  'data-note': note,
  'data-line': line,
  onFocus: () => walk.onFocus(note),
  onClick: () => walk.onPress(note, startTicks),
});
