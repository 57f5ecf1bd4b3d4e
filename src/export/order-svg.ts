import { defineExporter } from './exporter.ts'
import { LABELS } from './labels.ts'
import { orderPages } from './order/order-pages.ts'
import { pageSvg } from './shape/shape-svg.ts'

/** The order of work as one tall picture. */
export default defineExporter({
  title: 'Order diagram as a picture',
  purpose: 'order',
  extension: 'svg',
  mediaType: 'image/svg+xml',
  unit: 'mm',
  options: {
    columns: { kind: 'count', label: 'Figures side by side', default: 2, min: 1, max: 6 },
    width: { kind: 'length', label: 'Width of the picture', default: 210, min: 100, max: 1000 },
  },
  write(drawing, { columns, width }) {
    const [page] = orderPages(drawing, { columns, paper: { width, height: 'as needed' } })
    return pageSvg(page!, `${drawing.title}: ${LABELS.order.heading}`)
  },
})
