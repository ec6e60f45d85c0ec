import { ExportSlip } from '../features/export/export-slip.tsx';
import { TableScreen } from '../features/table/table-screen.tsx';

/** The splitting table, with the slip that takes its bars out. */
export const TableRoute = () => <TableScreen ExportSlip={ExportSlip} />;
