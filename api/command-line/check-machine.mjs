// What a machine must have, and one sentence about what is missing. Run by `npm ci` and at the start of every command; plain
// JavaScript that old versions of Node can read, too.
import { createRequire } from 'node:module';

/** Oldest version of each line that has everything the program and its libraries use. */
const OLDEST = { 20: 19, 22: 12 };

/** @param {string} version such as `20.19.0` @returns {string | null} what is wrong with it */
export function nodeProblem(version = process.versions.node) {
  const [major, minor] = version.split('.').map(Number);
  if (major >= 24 || minor >= OLDEST[major]) return null;
  return `Cinderlane needs Node.js 20.19 or newer, 22.12 or newer, or 24; this is ${version}. Install one of these from nodejs.org or your system's packages, then run the same command again.`;
}

/** @returns {string | null} why no database can be opened */
export function databaseProblem() {
  try {
    const Database = createRequire(import.meta.url)('better-sqlite3');
    new Database(':memory:').close();
    return null;
  } catch {
    return `Cinderlane's database library (better-sqlite3) is not ready for Node.js ${process.versions.node} on this machine: no built one could be fetched, and building it needs Python 3, make and a C++ compiler (Debian: apt-get install python3 make g++; macOS: xcode-select --install; Windows: the C++ build tools). Install these, then install again.`;
  }
}
