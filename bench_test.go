package lapspan_test

import (
	"bytes"
	"encoding/json"
	"os"
	"testing"

	"example.com/lapspan"
)

// The whole demo job, from a job that is read to its plan.
func BenchmarkPropose(b *testing.B) {
	job := demo(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := lapspan.Propose(b.Context(), job); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkProposeMixed(b *testing.B) {
	job := mixed()
	job.Limit = 10
	b.ReportAllocs()
	for b.Loop() {
		if _, err := lapspan.Propose(b.Context(), job); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReadJob(b *testing.B) {
	data, err := os.ReadFile("examples/wholejob/demo.json")
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := lapspan.ReadJob(bytes.NewReader(data)); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkExplainAndSheet(b *testing.B) {
	job := demo(b)
	plan, err := lapspan.Propose(b.Context(), job)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		lapspan.Sheet(job, lapspan.Explain(job, plan))
	}
}

func BenchmarkMarshalPlan(b *testing.B) {
	plan, err := lapspan.Propose(b.Context(), demo(b))
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := json.Marshal(plan); err != nil {
			b.Fatal(err)
		}
	}
}
