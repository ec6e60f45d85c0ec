import { useEffect, useState, useSyncExternalStore } from 'react';
import { z } from 'zod';
import { lessonStep } from '../../../contract/index.ts';
import { fetchLesson, saveLesson, type LessonDetail } from '../../lib/api/lessons.ts';
import type { Versioned } from '../../lib/api/request.ts';
import { DraftKeeper, type DraftSnapshot, type VersionedText } from './draft-keeper.ts';

const keptSchema = z.object({ text: z.object({ title: z.string(), steps: z.array(lessonStep) }), etag: z.string() });
const keyOf = (lessonId: string) => `heddle.lesson-draft.${lessonId}`;

/** What an earlier visit could not save; null where nothing readable is kept. */
function keptDraft(lessonId: string): VersionedText | null {
  const kept = localStorage.getItem(keyOf(lessonId));
  if (kept === null) return null;
  try {
    return keptSchema.safeParse(JSON.parse(kept)).data ?? null;
  } catch {
    return null; // cut short: nothing to go on with
  }
}

function keepDraft(lessonId: string, draft: VersionedText | null): void {
  if (draft === null) localStorage.removeItem(keyOf(lessonId));
  else localStorage.setItem(keyOf(lessonId), JSON.stringify(draft));
}

const versionedText = ({ body, etag }: Versioned<LessonDetail>): VersionedText => ({
  text: { title: body.title, steps: body.steps },
  etag: etag ?? `"${body.version}"`,
});

function later(deed: () => void, milliseconds: number): () => void {
  const timer = setTimeout(deed, milliseconds);
  return () => clearTimeout(timer);
}

/** A lesson's draft, saved as it is written. */
export function useDraft(lesson: Versioned<LessonDetail>): {
  readonly keeper: DraftKeeper;
  readonly draft: DraftSnapshot;
} {
  const [keeper] = useState(() => {
    const { id } = lesson.body;
    return new DraftKeeper(
      versionedText(lesson),
      {
        save: async (text, etag) => versionedText(await saveLesson(id, text, etag)),
        fetch: async () => versionedText(await fetchLesson(id)),
        keepLocally: (draft) => keepDraft(id, draft),
        later,
      },
      keptDraft(id),
    );
  });
  useEffect(() => () => void keeper.settle(), [keeper]);
  return { keeper, draft: useSyncExternalStore(keeper.subscribe, keeper.getSnapshot) };
}
