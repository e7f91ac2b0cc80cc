package soundfont
import ("testing";"os";"plinth/render/audio/bank")
func BenchmarkProbe(bm *testing.B){
 data,_:=os.ReadFile(timGM); 
 b,_:=Open(data,"")
 for i:=0;i<bm.N;i++ { 
 for k:=uint8(40);k<80;k++{ n:=b.Note(bank.Patch{},k,100); l:=b.layersOf(n.Patch,k); b.render(l.sets[n.Layer],k)}
 }
}
