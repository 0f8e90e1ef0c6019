/** The element of the page with an id. */
export const byId = (id) => document.getElementById(id);

/** A new element with properties and children; `aria-…` and `data-…` are set as attributes. */
export function make(tag, properties = {}, ...children) {
  const element = document.createElement(tag);
  assign(element, properties);
  element.append(...children);
  return element;
}

export function button(text, onclick, properties = {}) {
  return make('button', { type: 'button', onclick, ...properties }, text);
}

/** A new element of SVG with attributes and children. */
export function makeSvg(tag, attributes = {}, ...children) {
  const element = document.createElementNS('http://www.w3.org/2000/svg', tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  element.append(...children);
  return element;
}

function assign(element, properties) {
  for (const [name, value] of Object.entries(properties)) {
    if (name.includes('-')) element.setAttribute(name, value);
    else element[name] = value;
  }
}
