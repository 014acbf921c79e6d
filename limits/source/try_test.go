package source
import ("testing";"os";"path/filepath";"strings";"strconv";"regexp")
func TestTry(t *testing.T){
 m,_:=filepath.Glob(os.Getenv("HOME")+"/.cache/go-build/fuzz/standclear/limits/source/Fuzz*/*")
 best:=map[string]string{}; okslip:=map[string]string{}; guard:=0;nslip:=0
 for _,f:=range m { b,_:=os.ReadFile(f); l:=strings.SplitN(string(b),"\n",3)[1]
  q,err:=strconv.Unquote(strings.TrimSuffix(strings.TrimPrefix(l,"[]byte("),")")); if err!=nil {t.Log(err);continue}
  var ps Problems
  w:=splitLines([]byte(strings.TrimPrefix(q,"\ufeff"))); s:=scanner{lines:w,name:"f",ps:&ps}; text,ok:=s.scan(); if !ok {continue}
  _,e:=load(text); 
  if e==nil { if sl:=findSlip(text); sl!=nil { k:=regexp.MustCompile("`.*?`|[0-9]+").ReplaceAllString(sl.message,"X"); if o,has:=okslip[k]; !has||len(q)<len(o) {okslip[k]=q}}; continue}
  nslip++
  sl:=findSlip(text); if sl!=nil { n,_:=splitLines(text).noticed(e.(*syntaxError)); li,_:=splitLines(text).place(sl.at); if li>n {guard++; t.Logf("GUARD %q %v %v",text,sl,e)}; continue}
  if o,has:=best[e.Error()]; !has||len(q)<len(o) {best[e.Error()]=q}
 }
 for k,v:=range best {t.Logf("%s\n   %q",k,v)}
 t.Log("=== slips on good text"); for k,v:=range okslip {t.Logf("%s\n   %q",k,v)}
 t.Log(len(m),nslip,guard)
}
