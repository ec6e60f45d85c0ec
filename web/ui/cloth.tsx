import { weaveOf } from './cloth-weave.ts';
import { dyePaint } from './dye.ts';

interface ClothProps {
  /** The same text always gives the same cloth. */
  readonly of: string;
  readonly className?: string | undefined;
}

const rows = 26;
const warps = 18;
const pitch = 12;
const thread = 9;

/** A swatch of woven cloth that tells courses apart at a glance; a picture only. */
export function Cloth({ of, className }: ClothProps) {
  const weave = weaveOf(of, rows, warps);
  return (
    <svg
      className={className}
      viewBox={`0 0 ${warps * pitch} ${rows * pitch}`}
      preserveAspectRatio="xMidYMid slice"
      aria-hidden="true"
    >
      <rect width={warps * pitch} height={rows * pitch} fill="#2a211a" />
      {weave.weft.map((dye, row) => (
        <path
          key={row}
          d={`M0 ${row * pitch + pitch / 2}H${warps * pitch}`}
          stroke={dyePaint[dye].colour}
          strokeWidth={thread + 1}
        />
      ))}
      {weave.over.map((stretches, warp) => {
        const x = warp * pitch + pitch / 2;
        const path = stretches
          .map(({ first, last }) => `M${x} ${first * pitch + 0.5}V${(last + 1) * pitch - 0.5}`)
          .join('');
        return (
          <g key={warp} fill="none">
            <path d={path} stroke="#2a211a" strokeOpacity="0.55" strokeWidth={thread} />
            <path d={path} stroke="#efe6d2" strokeWidth={thread - 2} />
            <path d={path} stroke="#fbf7ee" strokeWidth="2.4" transform="translate(-1.2 0)" />
          </g>
        );
      })}
    </svg>
  );
}
