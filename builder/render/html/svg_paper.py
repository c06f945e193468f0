"""How drawings look on paper: the style goes into the SVG itself, for the printer of pages reads it
only there.
"""

PAPER_STYLE = """
svg { fill: #000; font-family: Leaf, Leaf Greek; } .mono { font-family: Leaf Mono, Leaf Greek; } .strong { font-weight: 700; }
.line { fill: none; stroke: #000; } .line.solid { fill: #000; } .line.halo { stroke: #fff; } .line.wire-edge { stroke: #000; }
.line.hair, .line.soft, .line.guide { stroke: #888; }
.box { fill: none; stroke: #000; stroke-width: 0.25; } .box.fill, .box.soft { fill: #eee; } .box.solid { fill: #000; }
.box.pad, .box.paper { fill: #fff; } .box.accent, .box.bad { fill: #555; } .box.good { fill: #bbb; }
.line.w-red { stroke: #c00; } .line.w-blue { stroke: #13c; } .line.w-green { stroke: #070; }
.line.w-yellow { stroke: #cb0; } .line.w-white { stroke: #fff; } .line.w-orange { stroke: #d70; }
.line.w-brown { stroke: #742; } .line.w-violet { stroke: #708; } .line.w-grey { stroke: #888; }
"""
