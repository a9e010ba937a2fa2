package main

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A key equals kedge check of its variant: what pdftotext reads on the printed
// key is, figure for figure, what check prints for the plan of that variant, and
// the exercise beside it has none of them.
func TestAKeyEqualsCheckOfItsVariant(t *testing.T) {
	reader, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed (poppler-utils)")
	}
	const variants = 6
	out := filepath.Join(t.TempDir(), "course.pdf")
	_, errs, status := call(t, "", "sheet", "../../assets/plans/redirect.kedge", "-o", out, "--with", "exercise,key", "--variants", fmt.Sprint(variants), "--seed", "5", "--plans",
		"--ask", "angle:B1", "--ask", "load:L1/1", "--ask", "load:B1", "--ask", "load:V1/tip", "--ask", "weakest")
	require.Zero(t, status, errs)
	spaces := regexp.MustCompile(`[\s\x{00a0}\x{202f}]+`)
	read := func(name string) (pages []string) {
		text, err := exec.Command(reader, "-layout", name, "-").Output()
		require.NoError(t, err)
		for _, page := range strings.Split(string(text), "\f") {
			pages = append(pages, spaces.ReplaceAllString(page, " "))
		}
		return pages
	}
	stem := strings.TrimSuffix(out, ".pdf")
	key, open := read(stem+"-KEY.pdf"), read(out)
	for v := 1; v <= variants; v++ {
		name := stem + fmt.Sprintf("-KEY-%d.kedge", v)
		text, _, _ := call(t, "", "check", name, "--at", "0", "--rig", "R1")
		text = regexp.MustCompile(` +`).ReplaceAllString(text, " ")
		figure := func(part string) string {
			m := regexp.MustCompile(`(?m)^ *` + part + ` (\d+(?:\.\d+)?) `).FindStringSubmatch(text)
			require.NotNil(t, m, "%s in %s", part, text)
			return m[1] + " kN"
		}
		raw, _, _ := call(t, "", "check", name, "--at", "0", "--rig", "R1", "--json")
		var answer struct {
			Rigs []struct {
				Parts []struct {
					ID    string  `json:"id"`
					Angle float64 `json:"angle_deg"`
				} `json:"parts"`
			} `json:"rigs"`
		}
		require.NoError(t, json.Unmarshal([]byte(raw), &answer))
		angle := ""
		for _, p := range answer.Rigs[0].Parts {
			if p.ID == "B1" {
				angle = fmt.Sprintf("%.1f°", p.Angle)
			}
		}
		require.NotEmpty(t, angle)
		mine := fmt.Sprintf("Variant %d of %d", v, variants)
		exercise := ""
		for _, page := range open {
			if strings.Contains(page, mine) {
				exercise += page
			}
		}
		require.NotEmpty(t, exercise)
		worked := ""
		for _, page := range key {
			if strings.Contains(page, mine) && strings.Contains(page, "Key, worked out") {
				worked += page
			}
		}
		for part, want := range map[string]string{
			"Angle between the stretches at Block 1": angle,
			"Load of Line, fairlead to Block 1":      figure("Line, fairlead to Block 1"),
			"Load of Block 1":                        figure("Block 1"),
			"Pull across Casualty, that tips it":     figure("Casualty tipping"),
		} {
			require.Equal(t, 1, strings.Count(worked, part+": "), "variant %d: %s on its key", v, part)
			_, after, _ := strings.Cut(worked, part+": ")
			assert.True(t, strings.HasPrefix(after, want+" "), "variant %d: %s: check has %s, the key %.20s", v, part, want, after)
			assert.NotContains(t, exercise, want)
		}
	}
	_, err = os.Stat(stem + "-KEY-7.kedge")
	assert.ErrorIs(t, err, os.ErrNotExist)
}
