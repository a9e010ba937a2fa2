package survey

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/quantity"
)

// The accuracy that a file states is ± of each place, in the unit of its head; of an outline
// it is that of the corner known least. What it does not state is not said.
func TestStatedAccuracy(t *testing.T) {
	r, err := Read("pegs.csv", []byte("name;east;north;accuracy_cm\nA;1;2;35\nB;3;4;\n"), Options{})
	require.NoError(t, err)
	require.Len(t, r.Points, 2)
	assert.InDelta(t, 0.35, float64(r.Points[0].Doubt), 1e-12)
	assert.Zero(t, r.Points[1].Doubt)
	require.NotEmpty(t, r.Notes)
	assert.Contains(t, r.Notes[len(r.Notes)-1].Error(), "doubt-taken")

	r, err = Read("site.geojson", []byte(`{"type":"FeatureCollection","features":[
		{"type":"Feature","properties":{"name":"Tree","accuracy":1.5},"geometry":{"type":"Point","coordinates":[8,54]}},
		{"type":"Feature","properties":{"name":"Pond","accuracy":2},"geometry":{"type":"Polygon","coordinates":[[[8,54],[8.0001,54],[8.0001,54.0001],[8,54]]]}},
		{"type":"Feature","properties":{"name":"Gate","accuracy":"good"},"geometry":{"type":"Point","coordinates":[8,54]}}]}`), Options{})
	require.NoError(t, err)
	require.Len(t, r.Points, 2)
	assert.Equal(t, quantity.Length(1.5), r.Points[0].Doubt)
	assert.Zero(t, r.Points[1].Doubt, "no figure")
	require.Len(t, r.Outlines, 1)
	assert.Equal(t, quantity.Length(2), r.Outlines[0].Doubt)

	for _, odd := range []string{"-1", "1e9"} {
		_, err := Read("pegs.csv", []byte("name;east;north;accuracy\nA;1;2;"+odd+"\nB;3;4;1\n"), Options{})
		assert.True(t, errors.Is(err, ErrPlace), odd)
	}
}
