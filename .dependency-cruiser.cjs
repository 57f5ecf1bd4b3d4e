// The import direction of the project: geometry, units, error <- quilt, motif, route <- plan, stitch, check, export
// <- pipeline <- cli, page. Each rule names a layer and what it must not reach.
const upper = (...folders) => `^src/(${folders.join('|')})`
module.exports = {
  forbidden: [
    {
      name: 'no-circular',
      severity: 'error',
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
    {
      name: 'geometry-knows-nothing-above',
      severity: 'error',
      from: { path: '^src/(geometry|units|error)' },
      to: {
        path: '^motifs|^src/(quilt|motif|route|pieces|plan|stitch|check|export|report|pipeline|cli|page)',
      },
    },
    {
      name: 'route-knows-edges-only',
      severity: 'error',
      from: { path: '^src/route' },
      to: { path: '^motifs|^src/', pathNot: '^src/(route|error|geometry/point)' },
    },
    {
      name: 'model-knows-no-plan',
      severity: 'error',
      from: { path: '^src/(quilt|motif)' },
      to: {
        path: ['^motifs', upper('plan', 'stitch', 'check', 'export', 'report', 'pipeline', 'cli', 'page')],
      },
    },
    {
      name: 'services-know-no-pipeline',
      severity: 'error',
      from: { path: '^src/(plan|pieces|stitch|check|export|report)' },
      to: { path: upper('pipeline', 'cli', 'page') },
    },
    {
      name: 'core-knows-no-face',
      severity: 'error',
      from: { path: '^(src|motifs)', pathNot: '^src/(cli|page)' },
      to: { path: upper('cli', 'page') },
    },
    {
      name: 'core-is-pure',
      severity: 'error',
      from: { path: '^(src|motifs)', pathNot: '^src/(cli|page)' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'motifs-know-the-contract',
      severity: 'error',
      from: { path: '^motifs' },
      to: { path: '^src/', pathNot: '^src/(motif|geometry|units|error)' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsConfig: { fileName: 'tsconfig.json' },
    tsPreCompilationDeps: true,
    exclude: { path: 'node_modules/(?!vitest)' },
  },
}
