/** A commented plan file to start from. */
export const starterPlan = (): string => `# A plan for one quilting line through all the borders of a quilt.
# Change the sizes to those of your own quilt, then: ditchline plan FILE
title: Lighthouse raffle quilt

# What a bare number means: in, cm or mm. Any length may say its own unit: 2.5 cm, 1 1/2 in, 10 mm.
units: in

# The middle of the quilt, inside the first border: finished size, as sewn. A colour that begins with # needs quotes.
# No rectangle? { shape: hexagon, across: 24 }, from flat to flat; or an octagon, or on-point: a square on its corner.
centre: { width: 24, height: 30, filler: none, fabric: "#f3ead8" }

# The borders ("bands") from the inside out. Each has a name, a finished width, a filler and a fabric colour.
# "ditchline motifs" lists the fillers, the widths that they suit and the values that they take.
# filler: auto leaves the choice to the program.
bands:
  - { name: sand, width: 1, filler: bracket, fabric: "#d9c7a0" }

  # Not sewn yet? Give the width as cut: the seam allowances come off. This band finishes at 2 1/2 in.
  - { name: swell, cut: 3, filler: s-echo, fabric: "#3f6f86" }

  # A filler with values of your own: { s-echo: { spacing: 0.5 } }. A band to leave unquilted: filler: none.
  - { name: stripe, width: 1.5, filler: none, fabric: "#7c2f3a" }

  # A band in a thread of its own (a line of its own, too): thread: "#1d3f57".

  # Sides that are not equally wide. Corners are mitred, butted (which pair was sewn first) or cornerstones.
  - name: shore
    width: { top: 2.5, right: 2, bottom: 2.5, left: 2 }
    corners: { butted: rows-first }
    filler: scallop
    fabric: "#7fa69a"

# A motif of your own: an SVG file beside this one with a single path, one repeat from left to right. Take the # away,
# and name it as a filler above:
# motifs:
#   harbour-wave: { drawing: harbour-wave.svg }

# What the binding covers on the front. Nothing is stitched there.
binding: 1/4 in

# domestic: you move the quilt. reach: the width and height that you can stitch before you move it.
# speed: stitches per minute, as you really work.
machine: { kind: domestic, reach: [16, 16], speed: 600 }

# How long a stitch is (or perInch: 10).
stitch: { length: 2.5 mm }

# The thread's size (tex, weight, denier, nm or ne), its colour, and how much you wind on a bobbin: a length, or the
# bobbin's class for an estimate: { class: L }.
thread: { tex: 30, colour: "#fbf7ea", bobbin: 75 m }

# The batting, and the greatest distance between lines of quilting that its label allows.
batting: { kind: cotton-scrim, limit: 8 }

# own: every filler has its own spacing. auto: spacings that you do not give are chosen for even quilting within that
# limit. density is what is chosen for: light, medium or dense.
spacing: own
density: medium

# Where the line starts: any, a corner such as top-left, or the middle of a side: { band: sand, side: top }.
route: { start: any, order: middle-out }

# An appliqué over the borders? The line stays out of it and is stitched round its edge (outline: as-needed: only where
# it has to get round). Places from the top left corner of the finished quilt. Take the # away:
# avoid:
#   - { name: moon, circle: { at: [6, 6], radius: 2 } }
#   - { name: sail, polygon: [[20, 18], [24, 26], [16, 26]] }

# Measured the real quilt? Three places each way. What is measured wins over what is planned. Take the # away:
# measured:
#   - { band: centre, across: [24, 24 1/8, 24], down: [30, 29 7/8, 30] }
`
