import { once } from 'node:events';
import { connect, createServer, type AddressInfo, type Server, type Socket } from 'node:net';
import { readFileSync } from 'node:fs';
import pg from 'pg';
import type { Cluster } from '../../../launch/postgres/cluster.ts';
import { waitForEnd } from '../../../launch/process-mark.ts';

/** A database behind an address that stays, while the server behind it is killed, started again or cut off. */
export class BreakableDatabase {
  private readonly sockets = new Set<Socket>();
  private cluster: Cluster | null = null;
  private pid = 0;

  private constructor(
    private readonly makeCluster: () => Promise<Cluster>,
    private readonly gate: Server,
  ) {
    gate.on('connection', (near) => this.bridge(near));
  }

  static async start(makeCluster: () => Promise<Cluster>): Promise<BreakableDatabase> {
    const gate = createServer().listen(0, '127.0.0.1');
    await once(gate, 'listening');
    const database = new BreakableDatabase(makeCluster, gate);
    await database.start();
    return database;
  }

  /** The address that stays. */
  get url(): string {
    const url = new URL(this.running.url('postgres'));
    url.port = String((this.gate.address() as AddressInfo).port);
    return url.toString();
  }

  async start(): Promise<void> {
    this.cluster = await this.makeCluster();
    this.pid = await this.pidOfServer();
  }

  /** Kills the server without warning, as a power cut would end it. */
  async kill(): Promise<void> {
    process.kill(this.pid, 'SIGKILL');
    await waitForEnd(this.pid, 5000);
    this.cut();
  }

  /** Cuts every open connection. */
  cut(): void {
    for (const socket of this.sockets) socket.destroy();
  }

  async stop(): Promise<void> {
    this.cut();
    this.gate.close();
    await this.running.stop();
  }

  private get running(): Cluster {
    if (this.cluster === null) throw new Error('The database was not started');
    return this.cluster;
  }

  private async pidOfServer(): Promise<number> {
    const client = new pg.Client({ connectionString: this.url });
    await client.connect();
    const { rows } = await client.query<{ folder: string }>('SELECT current_setting($$data_directory$$) AS folder');
    await client.end();
    return Number(readFileSync(`${rows[0]?.folder ?? ''}/postmaster.pid`, 'utf8').split('\n')[0]);
  }

  private bridge(near: Socket): void {
    const far = connect(Number(new URL(this.running.url('postgres')).port), '127.0.0.1');
    for (const [one, other] of [
      [near, far],
      [far, near],
    ] as const) {
      this.sockets.add(one);
      one.on('error', () => other.destroy());
      one.on('close', () => {
        this.sockets.delete(one);
        other.destroy();
      });
      one.pipe(other);
    }
  }
}
