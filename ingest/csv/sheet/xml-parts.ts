import { Parser } from 'saxen';

/** Receives a document's elements by their names without a prefix. */
export interface XmlListener {
  open?(name: string, attributes: () => Record<string, string>): void;
  close?(name: string): void;
  text?(text: string): void;
}

/** Producers differ in the prefix, not in the name. */
const bare = (name: string) => name.slice(name.indexOf(':') + 1);

/** A parser that takes a document piece by piece. @throws what the document is broken by */
export function xmlReader(listener: XmlListener): { write(piece: string): void; end(): void } {
  const parser = new Parser();
  let broken: Error | null = null;
  parser.on('error', (error) => {
    broken ??= error;
  });
  parser.on('openTag', (name, attributes, decode) =>
    listener.open?.(bare(name), () => {
      const found = attributes();
      for (const key of Object.keys(found)) found[key] = decode(found[key]);
      return found;
    }),
  );
  parser.on('closeTag', (name) => listener.close?.(bare(name)));
  parser.on('text', (text, decode) => listener.text?.(decode(text)));
  parser.on('cdata', (text) => listener.text?.(text));
  return {
    write(piece) {
      parser.write(piece);
      if (broken) throw broken;
    },
    end() {
      parser.end();
      if (broken) throw broken;
    },
  };
}

/** A small document at once. */
export function readXml(document: string, listener: XmlListener): void {
  const reader = xmlReader(listener);
  reader.write(document);
  reader.end();
}
