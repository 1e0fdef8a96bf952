export function builtName(source: string): string;
export function loadSource(source: string): Promise<unknown>;
