/** One size of one long path, as JSON: `measure-one.ts NAME SIZE`. */
import { LONG_PATHS } from './long-paths.ts';

const [name, size] = process.argv.slice(2);
const path = LONG_PATHS.find((one) => one.name === name)!;
const { measure } = await path.load();
console.log(JSON.stringify(await measure(Number(size))));
