import { groundFigure } from './document/report/figures.ts';
import { PICTURE_STYLE } from './document/report/style.ts';
import { CannotMake, type Finding, refuse } from './findings.ts';
import type { Job } from './job.ts';
import { extent } from './model/landform.ts';
import type { Layer } from './model/layer.ts';
import { ground, run } from './run.ts';
import type { JobFiles, RunOptions } from './steps.ts';
import { lengthText } from './units.ts';

/** What is seen of a landform or a job without making it. */
export interface Look {
  /** For people, a line each. */
  readonly lines: readonly string[];
  /** The same as data. Millimetres. */
  readonly data: Readonly<Record<string, unknown>>;
  readonly findings: readonly Finding[];
  /** The ground from above as an SVG file, with the layers' outlines where they could be made. */
  picture(): string;
}

/** A job text that does no more than read one landform file: what `look` needs for a file that is no job. */
export function landformJob(file: string): string {
  const ending = /\.([a-z0-9]+)$/i.exec(file)?.[1].toLowerCase() ?? '';
  const source: Record<string, unknown> = {
    png: { 'height-image': { file, low: 0, high: 1000, size: [1000, 1000] } },
    asc: { 'height-grid': { file } },
    txt: { 'height-grid': { file } },
    tif: { geotiff: { file } },
    tiff: { geotiff: { file } },
    svg: { 'contour-drawing': { file } },
    csv: { 'spot-heights': { file } },
    xyz: { 'spot-heights': { file } },
    stl: { mesh: { file } },
    obj: { mesh: { file } },
    ply: { mesh: { file } },
    glb: { mesh: { file } },
    gltf: { mesh: { file } },
  };
  if (!Object.hasOwn(source, ending)) {
    const fix =
      'Give a job (.yaml), a height image (.png), a height grid (.asc, .txt, .tif), spot heights (.csv, .xyz), a plan with contours (.svg) or a mesh (.stl, .obj, .ply, .glb, .gltf).';
    refuse('look/kind', `${file}: what kind of file this is cannot be told from its name.`, fix);
  }
  const boards = [{ name: 'any', size: [1000, 1000], thickness: 10 }];
  return JSON.stringify({ name: file.slice(-60), source: source[ending], stock: { boards } });
}

/**
 * Look at a job's ground, and when the job is whole, at everything that would be told of its plan.
 * @param isWhole false for a landform file that no job was written for yet.
 */
export async function look(job: Job, files: JobFiles, options: RunOptions, isWhole: boolean): Promise<Look> {
  const memory = options.memory ?? new Map();
  const { landform, findings } = await ground(job, files, { ...options, memory });
  const { box, lowMm, highMm } = extent(landform);
  const length = (mm: number) => lengthText(mm, job.unit, job.unit === 'mm' ? 1 : undefined);
  const isImage = !isWhole && job.source.plugin.name === 'height-image';
  const lines = [
    landform.kind === 'heightfield'
      ? `${landform.columns} × ${landform.rows} posts`
      : `${landform.positionsMm.length / 3} corners, ${landform.triangles.length / 3} triangles, ${landform.open ? 'open' : 'closed'}`,
    isImage
      ? `values ${(lowMm / 10).toFixed(1)} to ${(highMm / 10).toFixed(1)} % of what the image can hold; size and heights are said in the job`
      : `${length(box[2] - box[0])} × ${length(box[3] - box[1])} in plan, ground from ${length(lowMm)} to ${length(highMm)}`,
  ];
  const picture = (layers: readonly Layer[]) => () =>
    groundFigure(landform, layers, `${job.name} from above`, PICTURE_STYLE);
  const data = { kind: landform.kind, sizeMm: [box[2] - box[0], box[3] - box[1]], lowMm, highMm };
  // What is told of an image that no job describes is about the size it was given for want of one.
  if (!isWhole) return { lines, data, findings: isImage ? [] : findings, picture: picture([]) };
  try {
    const { plan } = await run({ ...job, documents: [] }, files, { ...options, memory });
    const { layers, pieces, boards } = plan.quantities;
    const isLying = plan.stack.kind === 'flat';
    lines.push(
      `${layers} ${isLying ? 'layers' : 'ribs'}, ${pieces} pieces, ${boards} boards (fewer than ${plan.bound.boards} is impossible)`,
    );
    return {
      lines,
      data: { ...data, layers, pieces, boards },
      findings: plan.findings,
      picture: picture(isLying ? plan.stack.layers : []),
    };
  } catch (error) {
    if (!(error instanceof CannotMake)) throw error;
    return {
      lines,
      data,
      findings: [...error.told, ...error.faults.map((fault) => ({ ...fault, level: 'stop' as const }))],
      picture: picture([]),
    };
  }
}
