package lapspan_test

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"example.com/lapspan"
)

// block returns the first block of a language in README.md.
func block(t *testing.T, language string) string {
	t.Helper()
	readme, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, found := strings.Cut(string(readme), "```"+language+"\n")
	text, _, closed := strings.Cut(rest, "```")
	if !found || !closed {
		t.Fatalf("README.md has no block of %s", language)
	}
	return text
}

// The quick start of the README is what Example runs.
func TestReadmeQuickStart(t *testing.T) {
	source, err := os.ReadFile("example_test.go")
	if err != nil {
		t.Fatal(err)
	}
	var indented strings.Builder
	for line := range strings.Lines(block(t, "go")) {
		indented.WriteString("\t" + line)
	}
	if !bytes.Contains(source, []byte(indented.String())) {
		t.Error("Example does not hold the lines of the README")
	}
}

// The document of the README is a job with a proposal.
func TestReadmeDocument(t *testing.T) {
	job, err := lapspan.ReadJob(strings.NewReader(block(t, "json")))
	if err != nil {
		t.Fatal(err)
	}
	if plan := propose(t, job); len(plan.Proposals) == 0 {
		t.Error("no proposal")
	}
}
