import { elementsOf, type XmlElement } from '../xml/tree.ts';
import { elementFates, fateOf } from './elements.ts';
import type { IssueLog, RawPlace } from './issue-log.ts';

/** More names than this that nobody knows are no longer told apart. */
const mostNames = 200;

interface Seen {
  count: number;
  readonly place: RawPlace | null;
}

/** Counts the elements that do not become part of the score, so that none is left out in silence. */
export class ElementCensus {
  private readonly seen = new Map<string, Seen>();

  /** Looks at an element and all within it; what stands within an element that is told of is told with it. */
  see(element: XmlElement, placeOf: () => RawPlace | null, parent: XmlElement | null = null): void {
    const fate = fateOf(element, parent);
    if (fate === 'ignored') return;
    if (fate === 'read') for (const child of elementsOf(element)) this.see(child, placeOf, element);
    else this.count(element.name, placeOf);
  }

  private count(name: string, placeOf: () => RawPlace | null): void {
    const earlier = this.seen.get(name);
    if (earlier !== undefined) earlier.count += 1;
    else if (this.seen.size < mostNames) this.seen.set(name, { count: 1, place: placeOf() });
  }

  /** Tells each name once, at its first place, with its count. */
  report(log: IssueLog): void {
    for (const [name, { count, place }] of this.seen) {
      const times = count === 1 ? 'once' : `${count} times`;
      if (elementFates.has(name))
        log.add(
          'element-kept',
          'note',
          `“${name}” stands here (${times} in all) and is kept in the document alone.`,
          place,
        );
      else
        log.add(
          'element-unknown',
          'warning',
          `“${name}” (${times} in all) is no element of MusicXML 4.0; it is kept in the document alone.`,
          place,
        );
    }
  }
}
