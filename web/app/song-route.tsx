import { ExportSlip } from '../features/export/export-slip.tsx';
import { SongScreen } from '../features/song/song-screen.tsx';

/** The song, with the slip that takes it out. */
export const SongRoute = () => <SongScreen ExportSlip={ExportSlip} />;
