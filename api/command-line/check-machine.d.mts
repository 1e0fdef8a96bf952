export function nodeProblem(version?: string): string | null;
export function databaseProblem(): string | null;
