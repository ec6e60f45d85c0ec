import type { Drawing, Paint, Shape, Step } from './shape.ts';

/** How large a picture a browser can be trusted to make. **Units** pixels, and pixels squared. */
const mostSide = 16_000;
const mostArea = 120_000_000;

/** Whether a drawing is too large for one picture at an enlargement. */
export const isTooLarge = ({ width, height }: Pick<Drawing, 'width' | 'height'>, enlargement: number): boolean =>
  Math.max(width, height) * enlargement > mostSide || width * height * enlargement ** 2 > mostArea;

function outlineOf(steps: readonly Step[]): Path2D {
  const path = new Path2D();
  for (const step of steps) {
    if (step[0] === 'M') path.moveTo(step[1], step[2]);
    else if (step[0] === 'L') path.lineTo(step[1], step[2]);
    else if (step[0] === 'C') path.bezierCurveTo(step[1], step[2], step[3], step[4], step[5], step[6]);
    else path.closePath();
  }
  return path;
}

function fillStyle(paint: Paint, context: CanvasRenderingContext2D): string | CanvasGradient {
  if (paint.kind === 'plain') return paint.colour;
  const gradient = context.createLinearGradient(paint.middleX - 1, 0, paint.middleX + 1, 0);
  gradient.addColorStop(0.5, paint.left);
  gradient.addColorStop(0.5, paint.right);
  return gradient;
}

function paintShape(shape: Shape, context: CanvasRenderingContext2D): void {
  const path = outlineOf(shape.steps);
  context.globalAlpha = shape.opacity;
  if (shape.fill !== null) {
    context.fillStyle = fillStyle(shape.fill, context);
    context.fill(path);
  }
  if (shape.stroke === null) return;
  context.strokeStyle = shape.stroke.colour;
  context.lineWidth = shape.stroke.width;
  context.lineCap = shape.stroke.isRound ? 'round' : 'butt';
  context.setLineDash([...shape.stroke.dash]);
  context.stroke(path);
}

/** A drawing as a PNG with open ground. **Errors** throws a sentence where the browser makes none. */
export async function pngPicture(drawing: Drawing, enlargement: number): Promise<Uint8Array> {
  if (isTooLarge(drawing, enlargement))
    throw new Error('The picture would be too large. Take fewer bars, or a smaller size.');
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(drawing.width * enlargement);
  canvas.height = Math.round(drawing.height * enlargement);
  const context = canvas.getContext('2d');
  if (context === null) throw new Error('This browser gives no place to paint a picture on.');
  context.scale(enlargement, enlargement);
  for (const shape of drawing.shapes) paintShape(shape, context);
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
  if (blob === null) throw new Error('The browser could not make the picture. Take fewer bars, or a smaller size.');
  return new Uint8Array(await blob.arrayBuffer());
}
