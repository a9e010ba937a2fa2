package main

import (
	"errors"

	"golang.org/x/sys/windows/registry"
)

// Where Windows looks for what opens a file, for one user ("File Types", Win32
// documentation): the ending names a kind, the kind a command.
const (
	classes   = `Software\Classes\`
	endingKey = classes + ".kedge"
	kindName  = "Kedge.Plan"
	kindKey   = classes + kindName
)

var associate = func(board string) error {
	for _, set := range [...]struct{ key, name, value string }{
		{kindKey, "", "Kedge plan"},
		{kindKey + `\DefaultIcon`, "", `"` + board + `",0`},
		{kindKey + `\shell\open\command`, "", `"` + board + `" "%1"`},
		{endingKey, "Content Type", "application/vnd.kedge.plan+json"},
		{endingKey, "", kindName},
	} {
		k, _, err := registry.CreateKey(registry.CURRENT_USER, set.key, registry.SET_VALUE)
		if err != nil {
			return err
		}
		if err = errors.Join(k.SetStringValue(set.name, set.value), k.Close()); err != nil {
			return err
		}
	}
	return nil
}

var dissociate = func() error {
	for _, key := range [...]string{kindKey + `\shell\open\command`, kindKey + `\shell\open`, kindKey + `\shell`, kindKey + `\DefaultIcon`, kindKey, endingKey} {
		if err := registry.DeleteKey(registry.CURRENT_USER, key); err != nil && !errors.Is(err, registry.ErrNotExist) {
			return err
		}
	}
	return nil
}
