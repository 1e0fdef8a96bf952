import { join } from 'node:path';

/**
 * A program of the folder $OUTSIDE_TOOLS, where CI installs readers of our exports that are too large for the project
 * (`npm install --prefix FOLDER bids-validator@1.15.0 @duckdb/node-api@1.5.6-r.1`); null without that folder.
 */
export function outsideTool(path: string): string | null {
  const folder = process.env.OUTSIDE_TOOLS;
  return folder ? join(folder, 'node_modules', path) : null;
}
