package statics_test

import (
	"flag"
	"os"
	"testing"
)

// TestMain fixes rapid's stream, so that a run says the same tomorrow. Another
// is had with -args -rapid.seed=N.
func TestMain(m *testing.M) {
	flag.Parse()
	given := false
	flag.Visit(func(f *flag.Flag) { given = given || f.Name == "rapid.seed" })
	if !given {
		if err := flag.Set("rapid.seed", "20260101"); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}
