import type { ServerMessage } from '../../contract/index.ts';
import { Caller } from './caller.ts';
import { TableClient } from './table-client.ts';

interface Setup {
  /** What its operations are named after. */
  readonly name: string;
  readonly personId: string;
  readonly cookie: string;
  readonly songId: string;
  /** The lines that notes are put on. */
  readonly lines: readonly string[];
}

const NOTES = 8;

/** A table client that marks in bursts and remembers what it sent and what was acknowledged. */
export class MarkingClient {
  readonly personId: string;
  readonly acknowledged = new Map<string, number>();
  readonly refusals: string[] = [];
  private readonly submissions = new Map<string, object>();
  private table: TableClient | null = null;

  constructor(private readonly setup: Setup) {
    this.personId = setup.personId;
  }

  get sent(): string[] {
    return [...this.submissions.keys()];
  }

  get pending(): string[] {
    return this.sent.filter((id) => !this.acknowledged.has(id));
  }

  async connect(origin: string): Promise<void> {
    const table = await TableClient.open(new Caller(origin), { cookie: this.setup.cookie });
    this.table = table;
    table.onMessage = (message) => this.hear(message);
    table.join(this.setup.songId);
    await table.next('snapshot');
  }

  /** Marks notes one after the other without waiting for answers. */
  burst(count: number): void {
    for (let index = 0; index < count; index += 1) {
      const number = this.submissions.size;
      const before = { lines: [], from: 'proposal', confidence: null };
      const after = { lines: [this.setup.lines[number % this.setup.lines.length]], from: 'person', confidence: null };
      const change = { note: `n${(number % NOTES) + 1}`, before, after };
      const id = `${this.setup.name}-${number}`;
      this.submissions.set(id, { id, baseRevision: 1, operation: { kind: 'markNotes', changes: [change] } });
      this.submit(id);
    }
  }

  submitPending(): void {
    for (const id of this.pending) this.submit(id);
  }

  async closed(): Promise<void> {
    await this.table?.closed();
  }

  close(): void {
    this.table?.close();
  }

  private submit(id: string): void {
    this.table?.send({ type: 'submit', songId: this.setup.songId, submission: this.submissions.get(id) });
  }

  private hear(message: ServerMessage): void {
    if (message.type === 'refused') this.refusals.push(message.code);
    if (message.type !== 'ordered' || message.operation.by !== this.personId) return;
    this.acknowledged.set(message.operation.id, message.operation.revision);
  }
}
