package wear

import "testing"

// The limits are common practice: a bore 15 % over new, 10 % of new oval, a pit
// of 1.5 mm. Each case is worked by hand beside it.
func TestJudgeReading(t *testing.T) {
	tests := []struct{ name, input, want string }{
		{name: "under half", input: `{"slot":"tip","new":900,"dmax":940,"dmin":930,"error":10}`, want: "good"},           // 4 of 15 %, oval 1 of 10 %
		{name: "past half", input: `{"slot":"tip","new":900,"dmax":970,"dmin":960,"error":10}`, want: "worn"},            // 7.8 %
		{name: "at its limit", input: `{"slot":"tip","new":900,"dmax":1060,"dmin":1050,"error":10}`, want: "change"},     // 17.8 %
		{name: "oval", input: `{"slot":"tip","new":900,"dmax":1010,"dmin":900,"error":10}`, want: "change"},              // 12.2 % of new
		{name: "within its doubt", input: `{"slot":"tip","new":900,"dmax":1030,"dmin":1020,"error":20}`, want: "unsure"}, // 14.4 ± 2.2 %
		{name: "a pin that tells no oval", input: `{"slot":"tip","new":900,"dmin":900}`, want: ""},                       //
		{name: "a pin past the limit", input: `{"slot":"tip","new":900,"dmin":1040}`, want: "change"},                    // 15.6 %
		{name: "no bore when new", input: `{"slot":"tip","dmax":970,"dmin":960,"error":10}`, want: ""},                   //
		{name: "smaller than new", input: `{"slot":"tip","new":900,"dmax":800,"dmin":800,"error":10}`, want: ""},         // another tip, or spatter
		{name: "a shallow pit", input: `{"slot":"electrode","pit":500}`, want: "good"},                                   // a third
		{name: "a deep pit", input: `{"slot":"electrode","pit":900}`, want: "worn"},                                      // 60 %
		{name: "a spent pit", input: `{"slot":"electrode","pit":1500}`, want: "change"},                                  //
		{name: "past a short insert", input: `{"slot":"electrode","pit":1200,"insert":1100}`, want: "change"},            //
		{name: "nothing read", input: `{"slot":"electrode"}`, want: ""},                                                  //
		{name: "a part without sizes", input: `{"slot":"cup","dmax":970}`, want: ""},                                     //
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, err := JudgeReading([]byte(test.input))
			if err != nil || got.Answer != test.want {
				t.Errorf("%s suggests %q, %v; want %q", test.input, got.Answer, err, test.want)
			}
		})
	}
	if _, err := JudgeReading([]byte("{")); err == nil {
		t.Error("half a reading is taken")
	}
}
