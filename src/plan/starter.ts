/** A commented plan file to start from. */
export const starterPlan = (): string => `# A plan for one quilting line through all the borders of a quilt.
# Change the sizes to those of your own quilt, then: ditchline plan FILE
title: Lighthouse raffle quilt

# What a bare number means: in, cm or mm. Any length may say its own unit: 2.5 cm, 1 1/2 in.
units: in

# The middle of the quilt, inside the first border: finished size, as sewn.
centre: { width: 24, height: 30, filler: none, fabric: "#f3ead8" }

# The borders ("bands") from the inside out. Each has a name, a finished width (or the width it was cut: then the
# seam allowances come off), a fabric colour and a filler. "ditchline motifs" lists the fillers.
bands:
  - { name: sand, width: 1, filler: bracket, fabric: "#d9c7a0" }
  - { name: swell, cut: 3, filler: s-echo, fabric: "#3f6f86" }
  - { name: shore, width: { top: 2.5, right: 2, bottom: 2.5, left: 2 }, filler: scallop, fabric: "#7fa69a" }

# What the binding covers on the front; nothing is stitched there.
binding: 0.25

# reach: the width and height that you can stitch without moving the quilt.
machine: { kind: domestic, reach: [16, 16] }

# The thread's size (tex, wt, denier, nm or ne), its colour, and how much you wind on a bobbin.
thread: { tex: 30, colour: "#fbf7ea", bobbin: 75 m }

# The batting, and the greatest distance between lines of quilting that its label allows.
batting: { kind: cotton-scrim, limit: 8 }
`
