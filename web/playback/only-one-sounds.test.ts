import { describe, expect, it } from 'vitest';
import { OnlyOne, type Sounding } from './only-one-sounds.ts';

class Bell implements Sounding {
  stops = 0;
  stop(): void {
    this.stops += 1;
  }
}

describe('only one sounds', () => {
  it('ends whoever sounded before, and only them', () => {
    const only = new OnlyOne();
    const [first, second, third] = [new Bell(), new Bell(), new Bell()];
    only.begin(first);
    only.begin(second);
    only.begin(third);
    expect([first.stops, second.stops, third.stops]).toEqual([1, 1, 0]);
  });

  it('lets somebody begin again without ending it', () => {
    const only = new OnlyOne();
    const bell = new Bell();
    only.begin(bell);
    only.begin(bell);
    expect(bell.stops).toBe(0);
  });

  it('leaves those alone who are gone', () => {
    const only = new OnlyOne();
    const [gone, other] = [new Bell(), new Bell()];
    only.begin(gone);
    only.end(other);
    only.end(gone);
    only.begin(other);
    expect([gone.stops, other.stops]).toEqual([0, 0]);
  });
});
