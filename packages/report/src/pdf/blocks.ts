import type { Block } from '../model/document.ts';
import { drawFacts } from './facts-block.ts';
import { drawFigure } from './figure-block.ts';
import type { Area, Element, Sheet } from './sheet.ts';
import { drawTable } from './table.ts';
import { drawHeading, drawList, drawNotice, drawStatement, drawText, soft } from './text-blocks.ts';

const styles = { lead: 11.5, plain: 9.5, small: 7.8 } as const;

/** Draws blocks one below the other; the sheet turns its pages. */
export function drawBlocks(sheet: Sheet, blocks: readonly Block[], area: Area, parent: Element): void {
  for (const [i, block] of blocks.entries()) drawBlock(sheet, block, blocks[i + 1], area, parent);
}

function drawBlock(sheet: Sheet, block: Block, next: Block | undefined, area: Area, parent: Element): void {
  switch (block.kind) {
    case 'heading':
      drawHeading(sheet, block.text, next, area, parent);
      return;
    case 'paragraph': {
      const size = styles[block.style ?? 'plain'];
      const colour = block.style === 'small' ? soft : '#000000';
      drawText(
        sheet,
        'P',
        block.text,
        { size, colour, after: block.style === 'small' ? 2.5 : 5 },
        area,
        parent,
        block.language,
      );
      return;
    }
    case 'statement':
      drawStatement(sheet, block, area, parent);
      return;
    case 'list':
      drawList(sheet, block.items, block.ordered, area, parent, block.language);
      return;
    case 'notice':
      drawNotice(sheet, block.title, block.items, area, parent);
      return;
    case 'facts':
      drawFacts(sheet, block.items, area, parent);
      return;
    case 'figure':
      drawFigure(sheet, block.figure, area, parent);
      return;
    case 'table':
      drawTable(sheet, block.table, area, parent);
      return;
    case 'columns':
      drawColumns(sheet, block, area, parent);
      return;
  }
}

/** Side by side from one height on; the tallest says where it goes on below. */
function drawColumns(
  sheet: Sheet,
  { columns, shares }: Extract<Block, { kind: 'columns' }>,
  { x, width }: Area,
  parent: Element,
): void {
  const gap = sheet.pt(16);
  const usable = width - gap * (columns.length - 1);
  const top = sheet.y;
  let left = x;
  let deepest = top;
  for (const [i, blocks] of columns.entries()) {
    const own = usable * (shares[i] ?? 1 / columns.length);
    sheet.y = top;
    drawBlocks(sheet, blocks, { x: left, width: own }, parent);
    deepest = Math.max(deepest, sheet.y);
    left += own + gap;
  }
  sheet.y = deepest;
}
