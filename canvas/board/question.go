package board

import "kedge/solver/plan"

// Question is the open question: the first unknown of the thing just placed.
type Question struct {
	Thing  plan.ID
	Member string // JSON member, nested as in "casualty/depth"
	Label  string // what is asked, as a sentence
	Text   string // typed so far
	In     bool   // the field has the keys: letters go to it too
	Error  string // why the last entry was refused; empty: none was
}

// Question is the open question, nil if there is none. It is a copy.
func (b *Board) Question() *Question {
	if b.question == nil {
		return nil
	}
	q := *b.question
	return &q
}
