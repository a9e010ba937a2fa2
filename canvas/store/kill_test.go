//go:build !race

package store_test

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/store"
	"kedge/solver/plan"
)

// saverFile names the file that a child of TestSaveSurvivesKilling saves to.
const saverFile = "KEDGE_TEST_SAVER_FILE"

func TestMain(m *testing.M) {
	if path := os.Getenv(saverFile); path != "" {
		fmt.Println("stopped:", saveForever(path))
		os.Exit(1)
	}
	os.Exit(m.Run())
}

// saveForever saves one generation after the other, the number as its title,
// and says so after each.
func saveForever(path string) error {
	p, stamp, err := store.Load(path)
	if err != nil {
		return err
	}
	n, err := strconv.Atoi(p.Title)
	if err != nil {
		return err
	}
	for {
		n++
		q := *p
		q.Title = strconv.Itoa(n)
		if stamp, err = store.Save(path, &q, stamp); err != nil {
			return err
		}
		fmt.Println("saved", n)
	}
}

// Left out under the race detector: the children share no memory, and each of
// them takes ten times as long there.

// A process that saves in a loop is killed at random moments. The file is then
// always the generation it last said it had saved, or the next one, whole.
func TestSaveSurvivesKilling(t *testing.T) {
	kills := 200
	if testing.Short() {
		kills = 20
	}
	if more := os.Getenv("KEDGE_KILLS"); more != "" { // of the developers' kill
		var err error
		kills, err = strconv.Atoi(more)
		require.NoError(t, err)
	}
	p := example(t)
	for i := range 400 { // long enough to be killed in the middle of
		p.Site.Notes = append(p.Site.Notes, plan.Note{Head: plan.Head{ID: plan.ID(fmt.Sprintf("N%d", i+100))}, Text: strings.Repeat("peat track ", 9)})
	}
	folder := t.TempDir()
	path := filepath.Join(folder, "moss.kedge")
	_, err := store.Save(path, titled(p, "0"), store.Stamp{})
	require.NoError(t, err)

	random := rand.New(rand.NewPCG(1, 2))
	last, grown := 0, 0
	for range kills {
		said := lastSaid(t, path, time.Duration(random.IntN(8_000))*time.Microsecond)
		got, _, err := store.Load(path)
		require.NoError(t, err, "the file is whole")
		require.Len(t, got.Site.Notes, len(p.Site.Notes))
		n, err := strconv.Atoi(got.Title)
		require.NoError(t, err)
		said = max(said, last)
		require.True(t, n == said || n == said+1, "it said %d, the file is %d", said, n)
		if n > 1 {
			assert.Contains(t, []string{strconv.Itoa(n - 1), strconv.Itoa(n)}, titleOf(t, path+store.PreviousSuffix), "so is the one before")
		}
		if n > last {
			grown++
		}
		last = n
	}
	assert.Greater(t, grown, kills/2, "most children came to save")

	_, stamp, err := store.Load(path)
	require.NoError(t, err)
	long := time.Now().Add(-time.Hour)
	for _, name := range names(t, folder) {
		if strings.HasPrefix(name, ".") {
			require.NoError(t, os.Chtimes(filepath.Join(folder, name), long, long))
		}
	}
	_, err = store.Save(path, p, stamp)
	require.NoError(t, err)
	assert.Equal(t, []string{"moss.kedge", "moss.kedge~"}, names(t, folder), "what the killed left is swept")
}

// lastSaid runs a child, kills it some time after its first save, and gives the
// last number it said it had saved.
func lastSaid(t *testing.T, path string, after time.Duration) int {
	t.Helper()
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), saverFile+"="+path)
	out, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	lines := bufio.NewScanner(out)
	last := 0
	for lines.Scan() {
		number, saved := strings.CutPrefix(lines.Text(), "saved ")
		require.True(t, saved, lines.Text())
		first := last == 0
		last, err = strconv.Atoi(number)
		require.NoError(t, err)
		if first {
			time.AfterFunc(after, func() { _ = c.Process.Kill() })
		}
	}
	require.Error(t, c.Wait(), "killed")
	return last
}
