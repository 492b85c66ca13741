package model

import "strings"

// Near is the word among some that a misspelt one was likely meant to be: one slip
// away, two in a word of five letters or more; "" when none is so near. What a word
// goes on to say need not be typed.
func Near(word string, among []string) string {
	typed := []rune(strings.ToLower(strings.TrimSpace(word)))
	slips := 1
	if len(typed) >= 5 {
		slips = 2
	}
	best, inAll, found := slips+1, 0, ""
	for _, candidate := range among {
		whole := []rune(strings.ToLower(candidate))
		all := slipsBetween(typed, whole)
		d := min(all, slipsBetween(typed, whole[:min(len(typed), len(whole))]))
		if d < len(typed) && (d < best || d == best && found != "" && all < inAll) {
			best, inAll, found = d, all, candidate
		}
	}
	return found
}

// Meant asks whether the nearest of some words was meant; where none is near, it is
// what is said otherwise.
func Meant(word string, among []string, otherwise string) string {
	if near := Near(word, among); near != "" {
		return "did you mean " + near + "?"
	}
	return otherwise
}

// OneSlip is the first word among some that differs from another by one slip; "" when
// none does, or the word is too short for a slip to be told from another word.
func OneSlip(word string, among []string) string {
	const shortest = 4
	typed := []rune(word)
	for _, candidate := range among {
		if len(typed) >= shortest && slipsBetween(typed, []rune(candidate)) == 1 {
			return candidate
		}
	}
	return ""
}

// slipsBetween counts the letters left out, added, changed or swapped with their
// neighbour between two words (optimal string alignment distance).
func slipsBetween(a, b []rune) int {
	before, last, now := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := range a {
		now[0] = i + 1
		for j := range b {
			change := last[j]
			if a[i] != b[j] {
				change++
			}
			now[j+1] = min(last[j+1]+1, now[j]+1, change)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				now[j+1] = min(now[j+1], before[j-1]+1)
			}
		}
		before, last, now = last, now, before
	}
	return last[len(b)]
}
