import { SaxesParser } from 'saxes';
import { say } from '../../../texts/reading-musicxml';

export interface XmlElement {
  name: string;
  attributes: Readonly<Record<string, string>>;
  children: XmlElement[];
  /** Its own text, without that of its children. */
  text: string;
  /** Both from 1. */
  line: number;
  column: number;
  /** Its end tag was read. */
  closed: boolean;
}

export interface XmlTree {
  /** What was read up to the first problem. */
  root: XmlElement | null;
  problem: { line: number; column: number; message: string } | null;
}

const MOST_CHARACTERS = 20_000_000;
const MOST_DEPTH = 40;
const MOST_ELEMENTS = 1_000_000;

class XmlProblem extends Error {}

/**
 * Reads XML into elements, up to the first place that is not well-formed. Nothing outside the text is ever loaded, and a
 * document that declares entities of its own is not read at all: score formats need none.
 */
export function xmlTree(text: string): XmlTree {
  if (text.length > MOST_CHARACTERS) {
    return { root: null, problem: { line: 1, column: 1, message: say.tooLong } };
  }
  const parser = new SaxesParser<{ position: true; xmlns: false }>({ position: true, xmlns: false });
  const open: XmlElement[] = [];
  let root: XmlElement | null = null;
  let count = 0;
  const addText = (part: string) => {
    const element = open.at(-1);
    if (element) element.text += part;
  };
  parser.on('error', (error) => {
    throw new XmlProblem(say.notWellFormed(error.message.replace(/^\d+:\d+:\s*/, '')));
  });
  parser.on('doctype', (declaration) => {
    if (!/<!ENTITY/i.test(declaration)) return;
    root = null;
    throw new XmlProblem(say.ownEntities);
  });
  parser.on('opentag', ({ name, attributes }) => {
    count += 1;
    if (open.length >= MOST_DEPTH) throw new XmlProblem(say.tooDeep(MOST_DEPTH));
    if (count > MOST_ELEMENTS) throw new XmlProblem(say.tooManyElements);
    const place = { line: parser.line, column: Math.max(1, parser.column) };
    const element: XmlElement = { name, attributes, children: [], text: '', ...place, closed: false };
    open.at(-1)?.children.push(element);
    root ??= element;
    open.push(element);
  });
  parser.on('closetag', () => {
    const element = open.pop();
    if (element) element.closed = true;
  });
  parser.on('text', addText);
  parser.on('cdata', addText);
  try {
    parser.write(text).close();
    return { root, problem: null };
  } catch (error) {
    if (!(error instanceof XmlProblem)) throw error;
    const { line, column } = parser;
    return { root, problem: { line, column: Math.max(1, column), message: error.message } };
  }
}

export function childOf(element: XmlElement | undefined, name: string): XmlElement | undefined {
  return element?.children.find((child) => child.name === name);
}

export function childrenOf(element: XmlElement | undefined, name: string): XmlElement[] {
  return element?.children.filter((child) => child.name === name) ?? [];
}

/** The element at the end of a path of first children. */
export function at(element: XmlElement | undefined, ...path: readonly string[]): XmlElement | undefined {
  return path.reduce(childOf, element);
}

/** The text at the end of a path, with its white space made single spaces; `null` when there is none. */
export function textAt(element: XmlElement | undefined, ...path: readonly string[]): string | null {
  return (
    at(element, ...path)
      ?.text.replace(/\s+/g, ' ')
      .trim() || null
  );
}

/** The number at the end of a path; `null` when it is none. */
export function numberAt(element: XmlElement | undefined, ...path: readonly string[]): number | null {
  const text = textAt(element, ...path);
  return text !== null && /^[+-]?\d{1,9}(\.\d{1,9})?$/.test(text) ? Number(text) : null;
}
