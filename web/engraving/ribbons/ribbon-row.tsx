import { useId } from 'react';
import type { LineId } from '../../../music/index.ts';
import { dyePaint } from '../../ui/dye.ts';
import type { EyeSpot } from './eye-spots.ts';
import type { SheetRow } from './layout.ts';
import { NoteEye, NoteHit } from './note-eye.tsx';
import type { RibbonInk } from './note-ink.tsx';
import styles from './ribbon-sheet.module.css';
import { edgesOf, outlineOf } from './stroke.ts';
import type { NoteWalk } from './use-note-walk.ts';
import { WovenRibbon } from './woven-ribbon.tsx';

interface RibbonRowProps {
  readonly row: SheetRow;
  readonly lifted: ReadonlySet<LineId> | null;
  readonly isVeiled: boolean;
  readonly ink: RibbonInk | null;
  readonly walk: NoteWalk;
}

/** One row of the cloth: bar numbers, loose ends to the tags, ribbons over and under, hits, eyes. */
export function RibbonRow({ row, lifted, isVeiled, ink, walk }: RibbonRowProps) {
  const isPale = (line: LineId) => lifted !== null && lifted.size > 0 && !lifted.has(line);
  const isFirstOfLine = (line: LineId, note: string) =>
    row.eyes.find((eye) => eye.lines.some(({ id }) => id === line))?.note === note;
  return (
    <g transform={`translate(0 ${row.topPixels})`}>
      {row.row.bars.map((bar) => (
        <text
          key={bar.bar}
          x={row.xOfTicks(bar.startTicks) + 4}
          y="12"
          textAnchor="middle"
          className={styles.barNumber}
        >
          {bar.label}
        </text>
      ))}
      {row.tags.map(({ line, y, threadX, threadY }) => (
        <path
          key={line.id}
          d={`M32 ${y}C${(32 + threadX) / 2} ${y} ${(32 + threadX) / 2} ${threadY} ${threadX} ${threadY}`}
          className={styles.looseEnd}
          data-pale={isPale(line.id)}
          stroke={dyePaint[line.dye].colour}
          strokeDasharray={dyePaint[line.dye].stitch}
        />
      ))}
      {row.hitThreads.map(({ line, y }) => (
        <path
          key={line.id}
          d={`M${row.xOfTicks(row.row.startTicks) - 8} ${y}H${row.xOfTicks(row.row.endTicks)}`}
          className={styles.hitThread}
          data-pale={isPale(line.id)}
          stroke={dyePaint[line.dye].colour}
          strokeDasharray={dyePaint[line.dye].stitch}
        />
      ))}
      {isVeiled ? null : <Cloth row={row} isPale={isPale} />}
      {row.hits.map((spot) => (
        <NoteHit key={`${spot.line.id} ${spot.note}`} spot={spot} isPale={isPale(spot.line.id)} ink={ink} walk={walk} />
      ))}
      {row.eyes
        .toSorted(labelledLast)
        .filter((spot) => !isVeiled || spot.lines.some((line) => isFirstOfLine(line.id, spot.note)))
        .map((spot) => (
          <NoteEye
            key={`${spot.note} ${spot.midi}`}
            spot={spot}
            isPale={spot.lines.every((line) => isPale(line.id))}
            ink={ink}
            walk={walk}
          />
        ))}
    </g>
  );
}

/** What is labelled lies over what is not, so that it can be read where notes meet. */
const labelledLast = (one: EyeSpot, other: EyeSpot): number => Number(other.isSmall) - Number(one.isSmall);

interface ClothProps {
  readonly row: SheetRow;
  readonly isPale: (line: LineId) => boolean;
}

/** The ribbons; where one goes under a ribbon drawn before it, that one is drawn once more on top. */
function Cloth({ row, isPale }: ClothProps) {
  const id = useId();
  const dyeOf = new Map(row.tags.map(({ line }) => [line.id, line.dye]));
  return (
    <>
      <defs>
        {row.ribbons.map(({ line, runs }) => (
          <clipPath key={line} id={`${id}${line}`}>
            <path d={runs.map(({ sections }) => outlineOf(sections)).join('')} />
          </clipPath>
        ))}
        {row.crossings.map(({ overSections }, index) => (
          <clipPath key={index} id={`${id}bridge${index}`}>
            <path d={outlineOf(overSections, 3)} />
          </clipPath>
        ))}
      </defs>
      {row.ribbons.map(({ line, runs }) => (
        <g key={line}>
          {row.crossings.map((crossing, index) =>
            crossing.over === line && !crossing.needsBridge ? (
              <path
                key={index}
                d={edgesOf(crossing.overSections)}
                className={styles.shadow}
                clipPath={`url(#${id}${crossing.under})`}
              />
            ) : null,
          )}
          <WovenRibbon id={`${id}ribbon${line}`} dye={dyeOf.get(line) ?? 'walnut'} runs={runs} isPale={isPale(line)} />
        </g>
      ))}
      {row.crossings.map((crossing, index) =>
        crossing.needsBridge ? (
          <g key={index}>
            <path
              d={edgesOf(crossing.overSections)}
              className={styles.shadow}
              clipPath={`url(#${id}${crossing.under})`}
            />
            <use href={`#${id}ribbon${crossing.over}`} clipPath={`url(#${id}bridge${index})`} />
          </g>
        ) : null,
      )}
    </>
  );
}
