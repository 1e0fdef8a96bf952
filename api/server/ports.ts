/** Ports of a server that is not told otherwise. */
export const DEFAULT_PORT = 7100;
export const DEFAULT_HTTPS_PORT = 7443;
/** Of an archive's pages, which may run beside a club's. */
export const ARCHIVE_PORT = 7200;
