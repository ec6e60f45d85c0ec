import { strToU8, zipSync } from 'fflate';

/** One moment for all files, so that the same score packs to the same bytes. A time without a zone: ZIP keeps local time. */
const mtime = '1980-01-02T00:00';
const scoreName = 'score.musicxml';

const container = `<?xml version="1.0" encoding="UTF-8"?>
<container>
  <rootfiles>
    <rootfile full-path="${scoreName}" media-type="application/vnd.recordare.musicxml+xml"/>
  </rootfiles>
</container>
`;

/** The bytes of a packed score (.mxl) that holds one MusicXML document. The same document always gives the same bytes. **Source** MusicXML 4.0, compressed .mxl files: the media type first and not deflated, then the container, then the score. */
export const packScore = (xml: string): Uint8Array =>
  zipSync({
    mimetype: [strToU8('application/vnd.recordare.musicxml'), { level: 0, mtime }],
    'META-INF/container.xml': [strToU8(container), { level: 9, mtime }],
    [scoreName]: [strToU8(xml), { level: 9, mtime }],
  });
