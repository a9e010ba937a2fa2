// Package travel follows the whole pull.
package travel
