/** The parsed report as a flat list of elements. */
import { type DefaultTreeAdapterTypes, html } from 'parse5';

type Node = DefaultTreeAdapterTypes.Node;
export type Element = DefaultTreeAdapterTypes.Element;

const isElement = (node: Node): node is Element => 'tagName' in node;

export function elements(node: Node): Element[] {
  const children = 'childNodes' in node ? node.childNodes.flatMap(elements) : [];
  return isElement(node) ? [node, ...children] : children;
}

export function textOf(node: Node): string {
  if ('value' in node) return node.value;
  return 'childNodes' in node ? node.childNodes.map(textOf).join('') : '';
}

export const isSvg = (element: Element): boolean => element.namespaceURI === html.NS.SVG;
