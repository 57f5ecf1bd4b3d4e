import { definePatchFiller } from './contract.ts'

export default definePatchFiller({
  title: 'Ditch only',
  source: 'common practice',
  params: {},
  ditch: true,
  draw: () => [],
})
