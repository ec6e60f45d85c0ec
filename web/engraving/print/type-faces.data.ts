import sans400Latin from '@fontsource/alegreya-sans/files/alegreya-sans-latin-400-normal.woff?no-inline';
import sans400LatinExt from '@fontsource/alegreya-sans/files/alegreya-sans-latin-ext-400-normal.woff?no-inline';
import sans400Cyrillic from '@fontsource/alegreya-sans/files/alegreya-sans-cyrillic-400-normal.woff?no-inline';
import sans400Greek from '@fontsource/alegreya-sans/files/alegreya-sans-greek-400-normal.woff?no-inline';
import sansItalic400Latin from '@fontsource/alegreya-sans/files/alegreya-sans-latin-400-italic.woff?no-inline';
import sansItalic400LatinExt from '@fontsource/alegreya-sans/files/alegreya-sans-latin-ext-400-italic.woff?no-inline';
import sansItalic400Cyrillic from '@fontsource/alegreya-sans/files/alegreya-sans-cyrillic-400-italic.woff?no-inline';
import sansItalic400Greek from '@fontsource/alegreya-sans/files/alegreya-sans-greek-400-italic.woff?no-inline';
import sans500Latin from '@fontsource/alegreya-sans/files/alegreya-sans-latin-500-normal.woff?no-inline';
import sans500LatinExt from '@fontsource/alegreya-sans/files/alegreya-sans-latin-ext-500-normal.woff?no-inline';
import sans500Cyrillic from '@fontsource/alegreya-sans/files/alegreya-sans-cyrillic-500-normal.woff?no-inline';
import sans500Greek from '@fontsource/alegreya-sans/files/alegreya-sans-greek-500-normal.woff?no-inline';
import sans700Latin from '@fontsource/alegreya-sans/files/alegreya-sans-latin-700-normal.woff?no-inline';
import sans700LatinExt from '@fontsource/alegreya-sans/files/alegreya-sans-latin-ext-700-normal.woff?no-inline';
import sans700Cyrillic from '@fontsource/alegreya-sans/files/alegreya-sans-cyrillic-700-normal.woff?no-inline';
import sans700Greek from '@fontsource/alegreya-sans/files/alegreya-sans-greek-700-normal.woff?no-inline';
import serif500Latin from '@fontsource/newsreader/files/newsreader-latin-500-normal.woff?no-inline';
import serif500LatinExt from '@fontsource/newsreader/files/newsreader-latin-ext-500-normal.woff?no-inline';
import serifItalic500Latin from '@fontsource/newsreader/files/newsreader-latin-500-italic.woff?no-inline';
import serifItalic500LatinExt from '@fontsource/newsreader/files/newsreader-latin-ext-500-italic.woff?no-inline';

/** One cut of a family with its files, the commonest letters first. */
export interface TypeFace {
  readonly family: 'sans' | 'serif';
  readonly isItalic: boolean;
  readonly weight: number;
  readonly files: readonly string[];
}

/** The cuts that scores and pages are set in. **Source** Alegreya Sans and Newsreader, SIL Open Font License 1.1. */
export const typeFaces: readonly TypeFace[] = [
  {
    family: 'sans',
    isItalic: false,
    weight: 400,
    files: [sans400Latin, sans400LatinExt, sans400Cyrillic, sans400Greek],
  },
  {
    family: 'sans',
    isItalic: true,
    weight: 400,
    files: [sansItalic400Latin, sansItalic400LatinExt, sansItalic400Cyrillic, sansItalic400Greek],
  },
  {
    family: 'sans',
    isItalic: false,
    weight: 500,
    files: [sans500Latin, sans500LatinExt, sans500Cyrillic, sans500Greek],
  },
  {
    family: 'sans',
    isItalic: false,
    weight: 700,
    files: [sans700Latin, sans700LatinExt, sans700Cyrillic, sans700Greek],
  },
  { family: 'serif', isItalic: false, weight: 500, files: [serif500Latin, serif500LatinExt] },
  { family: 'serif', isItalic: true, weight: 500, files: [serifItalic500Latin, serifItalic500LatinExt] },
];
