package facts_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/facts"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/refusal"
)

func TestStarterGear(t *testing.T) {
	items, err := facts.StarterGear()
	require.NoError(t, err)
	byID := map[facts.ID]facts.GearItem{}
	kinds := map[facts.GearKind]int{}
	for _, item := range items {
		byID[item.ID] = item
		kinds[item.Kind]++
	}
	for _, kind := range []facts.GearKind{facts.GearVehicle, facts.GearWinch, facts.GearLine, facts.GearSling, facts.GearBlock, facts.GearShackle, facts.GearDamper} {
		assert.Positive(t, kinds[kind], "the list holds a %s", kind)
	}

	// The presets of the storyboard: 40 m of line, roller block 0.96, 3 m
	// sling, casualty 5.2 x 1.9 m, winch vehicle 5.1 x 1.9 m.
	assert.Equal(t, 40*quantity.Metre, byID["line-hmpe-10-40m"].Line.Length)
	assert.Equal(t, plan.BasisBreaking, byID["line-hmpe-10-40m"].Line.Rating.Basis)
	assert.Equal(t, 0.96, byID["block-roller"].Block.Efficiency)
	assert.Equal(t, plan.BlockRoller, byID["block-roller"].Block.Kind)
	assert.Equal(t, 3*quantity.Metre, byID["sling-web-3m"].Sling.Length)
	assert.InDelta(t, 3*9806.65, float64(byID["sling-web-3m"].Sling.Rating.Force), 1e-6)
	assert.Equal(t, [2]quantity.Length{5.2, 1.9}, [2]quantity.Length{byID["casualty-pickup"].Vehicle.Length, byID["casualty-pickup"].Vehicle.Width})
	assert.Equal(t, [2]quantity.Length{5.1, 1.9}, [2]quantity.Length{byID["winch-truck"].Vehicle.Length, byID["winch-truck"].Vehicle.Width})
	assert.Equal(t, 40*quantity.Kilonewton, byID["winch-40kn"].Winch.LinePull)

	// The casualty's mass is asked for, a strength that differs from maker to
	// maker has no preset: no limit, and shown as such.
	assert.Zero(t, byID["casualty-pickup"].Vehicle.Mass)
	assert.False(t, byID["ring-aluminium"].Block.Rating.Known())
	assert.False(t, byID["shackle-soft-10"].Shackle.Rating.Known())
	assert.False(t, byID["line-kinetic-24-9m"].Line.Rating.Known())
}

// The ratings of the starter list are those of the handbook's rows.
func TestStarterGearAgreesWithTheHandbook(t *testing.T) {
	items, err := facts.StarterGear()
	require.NoError(t, err)
	wire := facts.Must(facts.WireBreakIWRC)
	sizes := facts.Must(facts.ShackleRating)
	hmpe := facts.Must(facts.HMPEBreak)
	checked := 0
	for _, item := range items {
		switch {
		case item.Line != nil && item.Line.Material == plan.MaterialWire:
			kn, ok := wire.StepOf("g1960", float64(item.Line.Diameter/quantity.Millimetre))
			require.True(t, ok, item.ID)
			assert.InDelta(t, kn*1000, float64(item.Line.Rating.Force), 1e-6, item.ID)
			checked++
		case item.Line != nil && item.Line.Material == plan.MaterialHMPE:
			d := float64(item.Line.Diameter / quantity.Millimetre)
			assert.LessOrEqual(t, float64(item.Line.Rating.Force), hmpe.Low*d*d, item.ID)
			checked++
		case item.Shackle != nil && item.Shackle.Kind != plan.ShackleSoft:
			rated, ok := sizes.Step(float64(item.Shackle.Body / quantity.Millimetre))
			require.True(t, ok, item.ID)
			assert.InDelta(t, rated*sizes.ToSI(), float64(item.Shackle.Rating.Force), 1e-6, item.ID)
			checked++
		}
	}
	assert.GreaterOrEqual(t, checked, 7)
}

func gear(lines string) []byte {
	return []byte("[[item]]\nid = \"my-item\"\ntitle = \"mine\"\n" + lines + "\n")
}

// The sentences are tested where they are made, in canvas/words.
func TestParseGearRefuses(t *testing.T) {
	tests := []struct{ name, text, want string }{
		{"no id", "[[item]]\nkind = \"sling\"\ntitle = \"mine\"", "id"},
		{"no title", "[[item]]\nid = \"my-item\"\nkind = \"sling\"", "empty"},
		{"kind", string(gear(`kind = "rocket"`)), "kind"},
		{"stray key", string(gear("kind = \"sling\"\nsheave = \"80 mm\"")), "no-key"},
		{"stray key at the top", "shelf = 3", "unknown-key"},
		{"bare number", string(gear("kind = \"sling\"\nlength = 3")), "not-text"},
		{"no unit", string(gear("kind = \"sling\"\nlength = \"3\"")), "no-unit"},
		{"empty", string(gear("kind = \"sling\"\nlength = \"\"")), "empty"},
		{"negative", string(gear("kind = \"sling\"\nlength = \"-3 m\"")), "not-positive"},
		{"zero rating", string(gear("kind = \"sling\"\nrating = \"0 t\"")), "not-positive"},
		{"basis", string(gear("kind = \"sling\"\nrating = \"3 t\"\nbasis = \"strong\"")), "none-of"},
		{"basis alone", string(gear("kind = \"sling\"\nbasis = \"working\"")), "basis-alone"},
		{"efficiency", string(gear("kind = \"block\"\nefficiency = 1.1")), "above-one"},
		{"efficiency nan", string(gear("kind = \"block\"\nefficiency = nan")), "not-positive-number"},
		{"ring with a bearing", string(gear("kind = \"block\"\ntype = \"ring\"\nefficiency = 0.9")), "ring-friction"},
		{"line sizes", string(gear("kind = \"block\"\nline_min = \"12 mm\"\nline_max = \"8 mm\"")), "above"},
		{"stall", string(gear("kind = \"winch\"\nstall_factor = 0.8")), "below-one"},
		{"wraps", string(gear("kind = \"winch\"\nmin_wraps = 4.5")), "not-whole"},
		{"flange", string(gear("kind = \"winch\"\ndrum_diameter = \"90 mm\"\nflange_diameter = \"80 mm\"")), "not-above"},
		{"wheelbase", string(gear("kind = \"vehicle\"\nlength = \"4 m\"\nwheelbase = \"5 m\"")), "above"},
		{"end fitting", string(gear("kind = \"line\"\nend_fitting = \"knot.bowline\"")), "no-row"},
		{"id twice", string(gear(`kind = "sling"`)) + string(gear(`kind = "block"`)), "id-twice"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			items, err := facts.ParseGear("my.toml", []byte(tt.text))
			assert.ErrorContains(t, err, "facts: my.toml: ")
			var r *refusal.Error
			for in := err; errors.As(in, &r) && r.Cause != nil; in = r.Cause {
			}
			require.NotNil(t, r)
			assert.Equal(t, "facts-"+tt.want, r.ID)
			assert.Nil(t, items)
		})
	}
}

func TestParseGearReadsTags(t *testing.T) {
	items, err := facts.ParseGear("my.toml", gear("kind = \"shackle\"\ntype = \"bow\"\nrating = \"3.25 t\"\nbasis = \"not said\"\nbody = \"16 mm\"\nround_pin = true"))
	require.NoError(t, err)
	require.Len(t, items, 1)
	s := items[0].Shackle
	require.NotNil(t, s)
	assert.InDelta(t, 3250*9.80665, float64(s.Rating.Force), 1e-6) // 3.25 t as weight
	assert.Equal(t, plan.BasisUnsaid, s.Rating.Basis)
	assert.InDelta(t, 0.016, float64(s.Body), 1e-12)
	assert.True(t, s.RoundPin)
	assert.Nil(t, items[0].Sling)
	assert.Equal(t, "my.toml", items[0].List)
}

func TestAddGearNeverReplaces(t *testing.T) {
	starter, err := facts.StarterGear()
	require.NoError(t, err)
	own, err := facts.ParseGear("my.toml", gear("kind = \"sling\"\nrating = \"8 t\"\nbasis = \"working\""))
	require.NoError(t, err)
	both, err := facts.AddGear(starter, own)
	require.NoError(t, err)
	assert.Len(t, both, len(starter)+1)

	own[0].ID = "sling-web-3m"
	both, err = facts.AddGear(starter, own)
	assert.EqualError(t, err, `facts: my.toml: id-taken item="sling-web-3m" list="starter list"`)
	assert.Nil(t, both)
}

func FuzzParseGear(f *testing.F) {
	f.Add(gear("kind = \"sling\"\nrating = \"3 t\"\nbasis = \"working\"\nlength = \"3 m\""))
	f.Add(gear("kind = \"winch\"\nline_pull = \"40 kN\"\nmin_wraps = 5"))
	f.Add(gear("kind = \"vehicle\"\nlength = \"5' 6\\\"\""))
	f.Add(gear("kind = \"block\"\nefficiency = inf"))
	f.Fuzz(func(t *testing.T, data []byte) {
		items, err := facts.ParseGear("fuzz.toml", data)
		if err != nil {
			return
		}
		for _, item := range items {
			set := 0
			for _, there := range []bool{item.Line != nil, item.Sling != nil, item.Block != nil, item.Shackle != nil,
				item.Winch != nil, item.Vehicle != nil, item.Damper != nil} {
				if there {
					set++
				}
			}
			if set != 1 || item.ID == "" || item.Title == "" {
				t.Fatalf("unsound item %+v", item)
			}
			if item.Sling != nil && !(item.Sling.Rating.Force >= 0) {
				t.Fatalf("unsound rating %+v", item.Sling)
			}
		}
	})
}
