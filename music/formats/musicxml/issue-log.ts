import type { Issue, IssueCode, IssuePlace } from '../../basis/issue.ts';
import type { Bar } from '../../score/score.ts';

/** Where a finding stands before the bars are known: a part, a bar by its index, and the ticks from its start. */
export interface RawPlace {
  readonly partName: string;
  readonly barIndex: number;
  readonly offsetTicks: number;
}

interface Finding {
  readonly code: IssueCode;
  readonly severity: Issue['severity'];
  readonly detail: string;
  readonly place: RawPlace | null;
}

const mostOfOneKind = 20;

/** Gathers findings while a score is read; of each code and part the first twenty are told one by one, the others as a count. */
export class IssueLog {
  private readonly findings: Finding[] = [];
  private readonly counts = new Map<string, number>();

  add(code: IssueCode, severity: Issue['severity'], detail: string, place: RawPlace | null = null): void {
    const kind = `${code} ${place?.partName ?? ''}`;
    const count = (this.counts.get(kind) ?? 0) + 1;
    this.counts.set(kind, count);
    if (count <= mostOfOneKind) this.findings.push({ code, severity, detail, place });
  }

  /** The findings in the order of the music, those about the whole file first. */
  issues(bars: readonly Bar[], ticksPerQuarter: number): Issue[] {
    const sorted = [...this.findings].sort((a, b) => barOfFinding(a) - barOfFinding(b));
    const told = sorted.map(({ code, severity, detail, place }): Issue => ({
      code,
      severity,
      detail,
      where: place === null ? { kind: 'file' } : placeInBars(place, bars, ticksPerQuarter),
    }));
    return [...told, ...this.remainders()];
  }

  private remainders(): Issue[] {
    const rest: Issue[] = [];
    for (const [kind, count] of this.counts) {
      if (count <= mostOfOneKind) continue;
      const code = kind.slice(0, kind.indexOf(' ')) as IssueCode;
      const severity = this.findings.find((finding) => finding.code === code)?.severity ?? 'note';
      const part = kind.slice(kind.indexOf(' ') + 1);
      const detail = `The same was found in ${count - mostOfOneKind} more places${part === '' ? '' : ` of ${part}`}.`;
      rest.push({ code, severity, detail, where: { kind: 'file' } });
    }
    return rest;
  }
}

const barOfFinding = ({ place }: Finding): number => place?.barIndex ?? -1;

function placeInBars(place: RawPlace, bars: readonly Bar[], ticksPerQuarter: number): IssuePlace {
  const bar = bars[place.barIndex];
  const beatTicks = (ticksPerQuarter * 4) / (bar?.meter.beatUnit ?? 4);
  return {
    kind: 'music',
    part: place.partName,
    barOrdinal: place.barIndex + 1,
    barLabel: bar?.label ?? String(place.barIndex + 1),
    beat: 1 + Math.round((place.offsetTicks / beatTicks) * 1000) / 1000,
  };
}
