const namespace = 'http://www.w3.org/2000/svg';

/** A new SVG element with attributes. */
export function svgElement<Name extends keyof SVGElementTagNameMap>(
  name: Name,
  attributes: Readonly<Record<string, string | number>> = {},
  ...children: readonly (SVGElement | string)[]
): SVGElementTagNameMap[Name] {
  const element = document.createElementNS(namespace, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  element.append(...children);
  return element;
}

/** Sets the size of a layer that lies over or under an engraving. */
export function sizeLayer(layer: SVGSVGElement, width: number, height: number): void {
  layer.setAttribute('width', String(width));
  layer.setAttribute('height', String(height));
  layer.setAttribute('viewBox', `0 0 ${width} ${height}`);
}
