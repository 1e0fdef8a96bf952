/** The part of saxen that this project uses. */
declare module 'saxen' {
  type Decode = (text: string) => string;
  export class Parser {
    on(
      event: 'openTag',
      listener: (name: string, attributes: () => Record<string, string>, decode: Decode) => void,
    ): this;
    on(event: 'closeTag', listener: (name: string) => void): this;
    on(event: 'text', listener: (text: string, decode: Decode) => void): this;
    on(event: 'cdata', listener: (text: string) => void): this;
    on(event: 'error', listener: (error: Error) => void): this;
    on(event: 'warn', listener: (warning: Error) => void): this;
    /** The next piece of a document; a piece may end anywhere. */
    write(piece: string): this;
    end(): Error | undefined;
    parse(document: string): Error | undefined;
  }
}
