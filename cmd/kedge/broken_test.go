package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A panic is a refusal like any other: a sentence and the status of what has no
// answer.
func TestPanicIsRefused(t *testing.T) {
	status, why := explain(whole(func() error { panic("broken on purpose") }))
	assert.Equal(t, statusRefused, status)
	for lang, want := range map[string]string{
		"en": "something in Kedge failed (broken on purpose): there is no answer",
		"de": "in Kedge ist etwas fehlgeschlagen (broken on purpose): es gibt keine Antwort",
	} {
		assert.Equal(t, want, say([]string{"--lang", lang}, why))
	}
}
