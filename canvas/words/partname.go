package words

import (
	"strings"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// PartName is what a part is called in tables, tags and sentences: "Line,
// fairlead to Block 1", "Line 2, tie-back to Tree 1", "Tree 1", "Winch, layer 2",
// "Winch vehicle, slides".
func (w *Words) PartName(p *part.Part, n Names) string {
	if p == nil {
		return w.Label("nothing")
	}
	thing := part.Text("thing", w.nameOf(string(p.Thing), n))
	switch p.Kind {
	case part.KindStretch:
		if w.HasLabel("part-held-" + p.Use) {
			return w.heldName(p, thing, n)
		}
		if p.From == "" && p.To == "" {
			return w.Label("part-stretch-n", thing, part.Count("index", p.Index+1))
		}
		return w.Label("part-stretch", thing, part.Text("from", w.startOf(p, n)), part.Text("to", w.endOf(p.To, n)))
	case part.KindWinch:
		winch := w.winchOf(p.Thing, n)
		if p.Layer > 0 {
			return w.Label("part-winch-layer", part.Text("winch", winch), part.Count("layer", p.Layer))
		}
		return winch
	case part.KindFairlead:
		return w.Label("part-fairlead", thing)
	case part.KindSlide:
		return w.Label("part-slide", thing)
	case part.KindTip:
		return w.Label("part-tip", thing)
	case part.KindSling:
		if w.HasLabel("part-held-" + p.Use) {
			return w.heldName(p, thing, n)
		}
		if p.Angle > 0 {
			return w.Label("part-sling-leg", thing)
		}
		return w.Label("part-sling", thing)
	case part.KindEnd:
		return w.Label("part-end", thing, part.Text("connector", w.connectorOf(p)), part.Text("to", w.endOf(p.To, n)))
	case part.KindPoint:
		return w.nameOf(p.ID, n)
	}
	return thing.Text
}

// heldName is what a line or sling of a tie-back or hold-back is called; one
// that holds nothing runs to nothing.
func (w *Words) heldName(p *part.Part, thing part.Value, n Names) string {
	if p.Kind == part.KindSling || p.To == "" {
		return w.Label("part-held-"+p.Use, thing)
	}
	return w.Label("part-held-"+p.Use+"-to", thing, part.Text("to", w.endOf(p.To, n)))
}

// connectorOf is what hooks a line on, by its kind.
func (w *Words) connectorOf(p *part.Part) string {
	for i := range p.Values {
		if p.Values[i].Name == "connector" {
			return w.Value(p.Values[i], nil)
		}
	}
	return ""
}

// winchOf is what the winch of a vehicle is called.
func (w *Words) winchOf(vehicle plan.ID, n Names) string {
	if n != nil {
		if s := n(winchPort(vehicle)); s != "" {
			return s
		}
	}
	return w.Label("part-winch", part.Text("thing", w.nameOf(string(vehicle), n)))
}

// startOf is what the hauling end of a stretch is called: of a line's first
// stretch, the fairlead if it comes from a winch.
func (w *Words) startOf(p *part.Part, n Names) string {
	if n != nil && p.Index == 0 {
		if s := n(winchPort(p.Thing)); s != "" {
			return s
		}
	}
	return w.endOf(p.From, n)
}

// endOf is what the end of a stretch is called: of a point of a thing, the
// thing.
func (w *Words) endOf(id plan.ID, n Names) string {
	thing, point, _ := strings.Cut(string(id), "/")
	if plan.ID(point) == plan.PortWinch {
		return w.Label("fairlead")
	}
	return w.nameOf(thing, n)
}

// nameOf is the name of a thing, of a point of a thing ("V1/P1") or of a part.
func (w *Words) nameOf(id string, n Names) string {
	if n != nil {
		if s := n(plan.ID(id)); s != "" {
			return s
		}
	}
	thing, point, ok := strings.Cut(id, "/")
	if !ok {
		return id
	}
	if plan.ID(point) == plan.PortWinch {
		return w.Label("part-winch", part.Text("thing", n.of(plan.ID(thing))))
	}
	return w.Label("point-of", part.Text("thing", n.of(plan.ID(thing))), part.Text("point", n.of(plan.ID(point))))
}

// Naming is n, which knows the things of a plan, made to know the parts of an
// assessment too: sentences about parts need it.
func (w *Words) Naming(a *solver.Assessment, n Names) Names {
	if a == nil {
		return n
	}
	return func(id plan.ID) string {
		if n != nil {
			if s := n(id); s != "" {
				return s
			}
		}
		if p, ok := a.Part(string(id)); ok && p.ID != string(p.Thing) {
			if p.Kind == part.KindPoint {
				return w.nameOf(p.ID, n)
			}
			return w.PartName(p, n)
		}
		return ""
	}
}
