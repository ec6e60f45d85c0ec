import type { Issue, IssueCode } from '../../basis/issue.ts';

/** Of each kind of finding so many are told one by one. */
const mostOfOneKind = 20;

/** Gathers findings about an ABC text by line and column; those beyond the twentieth of a kind are told as a count. */
export class AbcLog {
  private readonly found: Issue[] = [];
  private readonly counts = new Map<IssueCode, number>();

  add(code: IssueCode, severity: Issue['severity'], detail: string, lineNumber: number, column: number): void {
    const count = (this.counts.get(code) ?? 0) + 1;
    this.counts.set(code, count);
    if (count <= mostOfOneKind)
      this.found.push({ code, severity, detail, where: { kind: 'text', lineNumber, column } });
  }

  issues(): readonly Issue[] {
    const more = [...this.counts].flatMap(([code, count]): Issue[] =>
      count <= mostOfOneKind
        ? []
        : [
            {
              code,
              severity: 'warning',
              where: { kind: 'file' },
              detail: `${count - mostOfOneKind} more findings of this kind.`,
            },
          ],
    );
    return [...this.found, ...more];
  }
}
