import { randomUUID } from 'node:crypto';
import { existsSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { type Compilable, DummyDriver, Kysely, SqliteAdapter, SqliteIntrospector, SqliteQueryCompiler } from 'kysely';
import { fault, FaultError } from '../../shared/fault.ts';
import { addFieldColumns } from './field-columns.ts';
import { migrate } from './migrate.ts';
import type { ReadOnlyReason } from './read-only.ts';
import { storeFault } from './store-fault.ts';
import type { Tables } from './tables.ts';

/** Statements kept prepared; queries of the project are far fewer. */
const PREPARED_LIMIT = 1000;

/** Pages kept by a connection, KiB; 16,000 by default, which a long file fills once and never uses again. The system keeps them, too. */
const CACHE_KIB = 6000;
/** How long another program that holds the database is waited for. */
const WAIT_MS = 5000;
const READER_CACHE_KIB = 2000;

/** What a store is opened with beside its file. */
interface Circumstances {
  /** The data folder, where the file that is read is a copy elsewhere. */
  folder?: string;
  /** Why nothing can be changed. */
  why?: ReadOnlyReason;
  /** How long another program that holds the database is waited for. */
  wait_ms?: number;
}

/**
 * One open database file. Queries are built with kysely (`store.query`) and run at once, without promises, by `all`,
 * `first` and `run`: a transaction is then a plain function that nothing can slip into. More tables than the base ones:
 * `store.query.withTables<MyTables>()`.
 */
export class Store {
  readonly file: string;
  /** The data folder: what lies beside the database lies here. */
  readonly folder: string;
  /** Why nothing can be changed; null where it can. */
  readonly read_only: ReadOnlyReason | null;
  /** Different for every opening: tells one running program from another. */
  readonly instance = randomUUID();
  readonly database: Database.Database;
  readonly query: Kysely<Tables>;
  readonly #prepared = new Map<string, Database.Statement<unknown[], unknown>>();

  private constructor(file: string, database: Database.Database, { folder, why }: Circumstances = {}) {
    this.file = file;
    this.folder = folder ?? dirname(file);
    this.read_only = why ?? null;
    this.database = database;
    this.query = new Kysely<Tables>({
      dialect: {
        createAdapter: () => new SqliteAdapter(),
        createDriver: () => new DummyDriver(),
        createIntrospector: (kysely) => new SqliteIntrospector(kysely),
        createQueryCompiler: () => new SqliteQueryCompiler(),
      },
    });
  }

  /**
   * Opens (and makes) the database, brings it to the newest shape. `':memory:'` for a passing one.
   * @throws FaultError DATABASE_UNREADABLE, DATABASE_NEWER
   */
  static open(file: string, wait_ms = WAIT_MS): Store {
    refuseEmptied(file);
    // Readable by their owner only: the log files beside it take the database's own rights.
    const usual = file === ':memory:' ? null : process.umask(0o077);
    const database = new Database(file, { timeout: wait_ms });
    try {
      database.pragma('journal_mode = WAL');
      database.pragma('synchronous = FULL');
      database.pragma('foreign_keys = ON');
      database.pragma(`cache_size = -${CACHE_KIB}`);
      migrate(database);
      addFieldColumns(database);
    } catch (error) {
      database.close();
      throw storeFault(error, file) ?? error;
    } finally {
      if (usual !== null) process.umask(usual);
    }
    return new Store(file, database);
  }

  /** Opens an existing database for reading only, as worker threads do. */
  static openForReading(file: string, circumstances: Circumstances = {}): Store {
    const { wait_ms: timeout = WAIT_MS } = circumstances;
    const database = new Database(file, { readonly: true, fileMustExist: true, timeout });
    database.pragma(`cache_size = -${READER_CACHE_KIB}`);
    return new Store(file, database, circumstances);
  }

  /**
   * Opens a passing copy of a database that cannot be written: brought to the newest shape, then for reading only.
   * @param newest false leaves the shape as it is, where it is that of a newer version
   * @throws FaultError DATABASE_UNREADABLE
   */
  static openCopy(file: string, { newest, ...circumstances }: Circumstances & { newest: boolean }): Store {
    const { database } = newest ? Store.open(file) : new Store(file, new Database(file));
    database.pragma('query_only = ON');
    return new Store(file, database, circumstances);
  }

  /** All rows of a query. */
  all<Row>(query: Compilable<Row>): Row[] {
    const { sql, parameters } = query.compile();
    return this.prepare(sql).all(...parameters.map(toSqlite)) as Row[];
  }

  /** The first row, or undefined. */
  first<Row>(query: Compilable<Row>): Row | undefined {
    const { sql, parameters } = query.compile();
    return this.prepare(sql).get(...parameters.map(toSqlite)) as Row | undefined;
  }

  /** Runs a change; answers the number of rows changed and the identifier of the last row inserted. */
  run(query: Compilable<unknown>): { changes: number; id: number } {
    const { sql, parameters } = query.compile();
    const { changes, lastInsertRowid } = this.prepare(sql).run(...parameters.map(toSqlite));
    return { changes, id: Number(lastInsertRowid) };
  }

  /** A statement by its text, prepared once. For hot paths and for what kysely cannot say. */
  prepare(sql: string): Database.Statement<unknown[], unknown> {
    let statement = this.#prepared.get(sql);
    if (!statement) {
      if (this.#prepared.size >= PREPARED_LIMIT) this.#prepared.clear();
      statement = this.database.prepare<unknown[], unknown>(sql);
      this.#prepared.set(sql, statement);
    }
    return statement;
  }

  /** Runs `work` in one transaction: all of it or, when it throws, nothing. Transactions nest. */
  transaction<Result>(work: () => Result): Result {
    return this.database.transaction(work).immediate();
  }

  /**
   * Runs a change that need not outlive a power cut by itself: it is committed, and a program that is killed leaves it, but the disk is not
   * waited for. The next change that is made in the usual way takes it along.
   */
  passing<Result>(work: () => Result): Result {
    this.database.pragma('synchronous = NORMAL');
    try {
      return this.transaction(work);
    } finally {
      this.database.pragma('synchronous = FULL');
    }
  }

  close(): void {
    this.#prepared.clear();
    this.database.close();
  }
}

/**
 * An empty file where a database was, as a full disk or a broken copy leaves it, must not become a new database in silence.
 * @throws FaultError DATABASE_UNREADABLE
 */
function refuseEmptied(file: string): void {
  if (file === ':memory:' || statSync(file, { throwIfNoEntry: false })?.size !== 0) return;
  const beside = [`${file}-wal`, join(dirname(file), 'captures'), join(dirname(file), 'errors.log')];
  if (beside.some((path) => existsSync(path)))
    throw new FaultError(fault('DATABASE_UNREADABLE.empty', { file }, { file }));
}

/** SQLite knows neither booleans nor undefined. */
function toSqlite(value: unknown): unknown {
  if (typeof value === 'boolean') return value ? 1 : 0;
  return value === undefined ? null : value;
}

/** Now, as the store writes instants. */
export function nowUtc(): string {
  return new Date().toISOString();
}
