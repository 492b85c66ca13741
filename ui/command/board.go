package command

import "github.com/spf13/cobra"

// board opens the full-screen board.
func (r *run) board(c *cobra.Command, args []string) error { return c.Help() }
