import type { OpenSheetMusicDisplay } from 'opensheetmusicdisplay';
import { joinBarLines, partsJoinedUp, teachJoinedBarLines } from './joined-bar-lines.ts';
import { rememberXmlOfNotes } from './note-map.ts';
import { keepRepeatsOpen } from './repeat-edges.ts';

type Library = typeof import('opensheetmusicdisplay');

let library: Promise<Library> | null = null;

/** The engraving library, fetched once and only when a score is first shown. */
export function loadEngraver(): Promise<Library> {
  library ??= import('opensheetmusicdisplay').then((loaded) => {
    const found = 'VoiceGenerator' in loaded ? loaded : (loaded as { readonly default: Library }).default;
    rememberXmlOfNotes(found.VoiceGenerator);
    teachJoinedBarLines(found);
    keepRepeatsOpen(found.RepetitionCalculator, found.RepetitionInstructionEnum.BackJumpLine);
    return found;
  });
  return library;
}

/** What one engraving is to look like. */
export interface EngravingMeasures {
  /** 1 sets staff lines 10 px apart. */
  readonly zoom: number;
  /** How many bars there are; all of them go on one system if they fit. */
  readonly barCount: number;
  /** Whether words of ours are to stand above the music. */
  readonly hasWordsAbove: boolean;
  readonly fontFamily: string;
}

/** Engraves a document into an element of definite width. */
export async function engrave(
  found: Library,
  host: HTMLElement,
  document: Document,
  measures: EngravingMeasures,
): Promise<OpenSheetMusicDisplay> {
  const osmd = new found.OpenSheetMusicDisplay(host, {
    autoResize: false,
    backend: 'svg',
    drawTitle: false,
    drawSubtitle: false,
    drawComposer: false,
    drawLyricist: false,
    drawCredits: false,
    drawPartNames: false,
    drawPartAbbreviations: false,
    drawMeasureNumbers: false,
    drawingParameters: 'default',
    followCursor: false,
    disableCursor: true,
    stretchLastSystemLine: true,
    renderSingleHorizontalStaffline: false,
  });
  osmd.setLogLevel('silent');
  setRules(osmd, measures);
  joinBarLines(osmd.EngravingRules, partsJoinedUp(document));
  await osmd.load(document);
  for (const zoom of zoomsToTry) {
    osmd.zoom = measures.zoom * zoom;
    osmd.render();
    if (osmd.GraphicSheet.MusicPages.flatMap((page) => page.MusicSystems).length === 1) break;
  }
  return osmd;
}

/** Music that turns out too wide for its system is set a little smaller before it is broken in two. */
const zoomsToTry = [1, 0.92, 0.85];

function setRules(osmd: OpenSheetMusicDisplay, measures: EngravingMeasures): void {
  const rules = osmd.EngravingRules;
  rules.PageLeftMargin = 0;
  rules.PageRightMargin = 0.2;
  rules.PageTopMargin = measures.hasWordsAbove ? 3 : 1;
  rules.PageTopMarginNarrow = rules.PageTopMargin;
  rules.PageBottomMargin = 1;
  rules.SystemLeftMargin = 0;
  rules.SystemRightMargin = 0;
  rules.RenderXMeasuresPerLineAkaSystem = measures.barCount;
  rules.NewSystemAtXMLNewSystemAttribute = false;
  rules.NewSystemAtXMLNewPageAttribute = false;
  rules.NewPageAtXMLNewPageAttribute = false;
  rules.TupletNumbersInTabs = false;
  rules.TabTimeSignatureRendered = false;
  rules.TabKeySignatureRendered = false;
  rules.TabUseXNoteheadShapeForTabNote = true;
  rules.RehearsalMarkYOffset = 12;
  rules.MetronomeMarksDrawn = false;
  rules.RenderPedals = false;
  rules.RenderStringNumbersClassical = false;
  rules.StaffLineColor = '#8d857a';
  rules.StaffLineWidth = 0.08;
  rules.DefaultFontFamily = measures.fontFamily;
  rules.PageBackgroundColor = 'transparent';
  rules.UsePageBackgroundColorForTabNotes = false;
}
