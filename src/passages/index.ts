export {
  type PartitionOptions,
  type Passages,
  type PassageTree,
  passageTree,
} from './tree.ts';
