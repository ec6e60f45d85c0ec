import type { Issue, IssueCode } from '../../basis/issue.ts';
import { columnAt, type TextLine } from './text-line.ts';

const mostOfOneKind = 20;

/** Gathers what is found in a text; of each code the first twenty are told one by one, the others as a count. */
export class TabLog {
  private readonly told: Issue[] = [];
  private readonly counts = new Map<IssueCode, number>();

  /** Adds a finding at an index of a line, or about the whole file where no line is given. */
  add(code: IssueCode, severity: Issue['severity'], detail: string, line: TextLine | null = null, index = 0): void {
    const count = (this.counts.get(code) ?? 0) + 1;
    this.counts.set(code, count);
    if (count > mostOfOneKind) return;
    const where: Issue['where'] =
      line === null ? { kind: 'file' } : { kind: 'text', lineNumber: line.lineNumber, column: columnAt(line, index) };
    this.told.push({ code, where, severity, detail });
  }

  /** The findings in the order of the text, those about the whole file first. */
  issues(): Issue[] {
    const lineOf = ({ where }: Issue): number => (where.kind === 'text' ? where.lineNumber : 0);
    return [...this.told.toSorted((a, b) => lineOf(a) - lineOf(b)), ...this.remainders()];
  }

  private remainders(): Issue[] {
    return [...this.counts]
      .filter(([, count]) => count > mostOfOneKind)
      .map(([code, count]) => ({
        code,
        where: { kind: 'file' },
        severity: this.told.find((issue) => issue.code === code)?.severity ?? 'note',
        detail: `The same was found in ${count - mostOfOneKind} more places.`,
      }));
  }
}
