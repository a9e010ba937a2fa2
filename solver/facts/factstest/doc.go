// Package factstest loads published worked examples for the tests of every
// room: inputs, formula, the answer and its source, one file a subject, in
// testdata/published. It is used by tests only.
//
//	for _, c := range factstest.Published(t, os.DirFS("../../testdata/published"), "gear.toml") {
//		if c.Package != "gear" {
//			continue
//		}
//		t.Run(c.ID, func(t *testing.T) {
//			c.Check(t, "block_lb", 2*math.Cos(c.In(t, "between_deg")*math.Pi/360)*c.In(t, "tension_lb"))
//		})
//	}
//
// The folder is handed in because no file of the solver opens files; tests
// may.
package factstest
