/** The files that others read and write: their forms, and what turns them into values and back. */
export { folderName } from './folder-name.ts';
export { type OffcutFile, offcutFileSchema, offcutsFile, readOffcuts } from './offcut-file.ts';
export { type PlanFile, planFile, planFileSchema, planSchema } from './plan-file.ts';
