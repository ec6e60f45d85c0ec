import type { ImportIssue } from '../../lib/api/songs.ts';

/** Where an issue stands, in words. */
export function placeWords({ where }: Pick<ImportIssue, 'where'>): string {
  switch (where.kind) {
    case 'file':
      return 'the whole file';
    case 'text':
      return `line ${where.lineNumber} of the file, column ${where.column}`;
    case 'music':
      return `bar ${where.barLabel === '' ? `no. ${where.barOrdinal}` : where.barLabel}, beat ${Math.round(where.beat * 100) / 100}`;
  }
}

/** Issues gathered by what they say, worst first; each with all its places. */
export interface IssueGroup {
  readonly severity: ImportIssue['severity'];
  readonly detail: string;
  readonly places: readonly string[];
}

const rank: Readonly<Record<ImportIssue['severity'], number>> = { error: 0, warning: 1, note: 2 };

/** The groups of a report: the same sentence stands once, with every place it is true of. */
export function groupsOf(issues: readonly ImportIssue[]): readonly IssueGroup[] {
  const groups = new Map<string, { severity: ImportIssue['severity']; detail: string; places: string[] }>();
  for (const issue of issues) {
    const key = `${issue.severity} ${issue.detail}`;
    const group = groups.get(key) ?? { severity: issue.severity, detail: issue.detail, places: [] };
    group.places.push(placeWords(issue));
    groups.set(key, group);
  }
  return [...groups.values()].sort((a, b) => rank[a.severity] - rank[b.severity]);
}

/** How many issues of each severity there are, in one sentence. */
export function reportSentence(issues: readonly ImportIssue[]): string {
  const count = (severity: ImportIssue['severity']) => issues.filter((issue) => issue.severity === severity).length;
  const [errors, warnings, notes] = [count('error'), count('warning'), count('note')];
  if (issues.length === 0) return 'Everything in the file was understood.';
  const parts = [
    errors === 0 ? null : errors === 1 ? 'one thing that could not be read' : `${errors} things that could not be read`,
    warnings === 0 ? null : warnings === 1 ? 'one thing to look at' : `${warnings} things to look at`,
    notes === 0 ? null : notes === 1 ? 'one thing to know' : `${notes} things to know`,
  ].filter((part) => part !== null);
  const text = parts.join(', ');
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}
