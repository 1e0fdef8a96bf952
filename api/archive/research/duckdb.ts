import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { FaultError, fault } from '../../../shared/fault.ts';

const PACKAGE = '@duckdb/node-api';
/** Folder with tools that are too large to come along. */
const VARIABLE = 'CINDERLANE_TOOLS';

type Row = Record<string, unknown>;

/** A database in memory that reads files in place. */
export interface Duck {
  rows(sql: string): Promise<Row[]>;
  close(): void;
}

interface DuckLibrary {
  DuckDBInstance: {
    create(place: string): Promise<{
      connect(): Promise<{
        runAndReadAll(sql: string): Promise<{ getRowObjectsJS(): Row[] }>;
        closeSync(): void;
      }>;
    }>;
  };
}

/**
 * Opens DuckDB, which is many times larger than this program and not part of it: from the folder that CINDERLANE_TOOLS names, or where
 * Node finds it.
 * @throws FaultError TOOL_MISSING
 */
export async function openDuck(): Promise<Duck> {
  const { DuckDBInstance } = library();
  const connection = await (await DuckDBInstance.create(':memory:')).connect();
  return {
    rows: async (sql) => (await connection.runAndReadAll(sql)).getRowObjectsJS(),
    close: () => connection.closeSync(),
  };
}

function library(): DuckLibrary {
  const folder = process.env[VARIABLE];
  const from = folder === undefined ? import.meta.url : join(folder, 'package.json');
  if (folder !== undefined && !existsSync(join(folder, 'node_modules', PACKAGE))) throw missing();
  try {
    return createRequire(from)(PACKAGE) as DuckLibrary;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'MODULE_NOT_FOUND') throw missing();
    throw error;
  }
}

function missing(): FaultError {
  return new FaultError(fault('TOOL_MISSING.duckdb', { variable: VARIABLE, name: PACKAGE }, { tool: PACKAGE }));
}
