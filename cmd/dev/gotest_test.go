package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What go test prints, by Go 1.26, and what the table then says.
func TestFailures(t *testing.T) {
	for _, c := range []struct {
		name, said string
		want       []string
	}{
		{"none", "ok  \tkedge/a\t0.1s\n?   \tkedge/b\t[no test files]\n", nil},
		{"two packages", "--- FAIL: TestOne (0.00s)\n    a_test.go:5: no\nFAIL\nFAIL\tkedge/solver/a\t0.1s\nok  \tkedge/b\t0.1s\n--- FAIL: TestTwo (0.00s)\nFAIL\nFAIL\tkedge/c\t0.1s\nFAIL\n",
			[]string{"solver/a: TestOne", "c: TestTwo"}},
		{"the innermost", "--- FAIL: TestOne (0.0s)\n    --- FAIL: TestOne/a (0.0s)\n        --- FAIL: TestOne/a/x (0.0s)\n    --- FAIL: TestOne/b (0.0s)\nFAIL\tkedge/a\t0.1s\n",
			[]string{"a: TestOne/a/x, TestOne/b"}},
		{"the innermost first", "    --- FAIL: TestOne/a (0.0s)\n--- FAIL: TestOne (0.0s)\nFAIL\tkedge/a\t0.1s\n", []string{"a: TestOne/a"}},
		{"names that begin alike", "--- FAIL: TestOne (0.0s)\n--- FAIL: TestOneMore (0.0s)\nFAIL\tkedge/a\t0.1s\n", []string{"a: TestOne, TestOneMore"}},
		{"many", "--- FAIL: T1 (0s)\n--- FAIL: T2 (0s)\n--- FAIL: T3 (0s)\n--- FAIL: T4 (0s)\n--- FAIL: T5 (0s)\n--- FAIL: T6 (0s)\n--- FAIL: T7 (0s)\nFAIL\tkedge/a\t0.1s\n",
			[]string{"a: T1, T2, T3, T4, T5, and 2 more"}},
		{"not built", "# kedge/a [kedge/a.test]\na/a_test.go:3:1: expected\nFAIL\tkedge/a [build failed]\nFAIL\n", []string{"a: build failed"}},
		{"over its time", "panic: test timed out after 40m0s\n\trunning tests:\n\t\tTestSlow (39m58s)\n\ngoroutine 1 [running]:\ntesting.x()\nFAIL\tkedge/a\t2400.1s\nFAIL\n",
			[]string{"a: TestSlow (39m58s) when the time was over"}},
		{"ended by itself", "FAIL\tkedge/a\t0.1s\n", []string{"a: ended without naming a test"}},
		{"on Windows", "--- FAIL: TestOne (0.00s)\r\nFAIL\tkedge/a\t0.1s\r\n", []string{"a: TestOne"}},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, failures(c.said)) })
	}
}

func TestTheTableNamesTheTestsThatFailed(t *testing.T) {
	m := ready(t)
	m.outputs["go list"] = `{"ImportPath":"kedge/a","TestGoFiles":["a_test.go"]}`
	m.outputs["go test"] = "--- FAIL: TestOne (0.0s)\nFAIL\tkedge/a\t0.1s\n"
	m.fails["go test"] = true
	assert.Equal(t, 1, dev(m, []string{"test"}))
	assert.Regexp(t, `(?m)^tests without cgo +[0-9.]+ s  FAILED: a: TestOne$`, m.text())
}
