/** What a sentence is made from: plain values that survive JSON. */
export type Value = string | number | boolean | null | readonly Value[] | { readonly [name: string]: Value };
export type Values = { readonly [name: string]: Value };
